// The time on board less UTC, as a ship keeps it.

/** "+02:00" or "-09:30", up to fourteen hours. */
export const timeZonePattern = /^[+-](0\d|1[0-4]):[0-5]\d$/;
