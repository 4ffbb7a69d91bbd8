// The time on board minus UTC.

/** "+02:00" or "-09:30", up to fourteen hours. */
export const timeZonePattern = /^[+-](0\d|1[0-4]):[0-5]\d$/;
