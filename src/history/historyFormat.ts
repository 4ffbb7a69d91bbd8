/** Format of a line of history. It is a module of its own so that writers of records do not load the schema. */
export const historyFormat = "foulcast-history/1";
