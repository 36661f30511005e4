/** The data folder or the database cannot be used, in one line. */
export class StoreError extends Error {}
