/** Of a line of history. A module of its own: whoever makes records needs no schema. */
export const historyFormat = "foulcast-history/1";
