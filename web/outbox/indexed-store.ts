/** What is kept in each store of a database, and by what it is found. */
export type Shelves = Record<
  string,
  { key: IDBValidKey; value: unknown; indexes: Record<string, IDBValidKey> }
>;

const answered = <Result>(request: IDBRequest<Result>): Promise<Result> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });

const looking = <Key extends IDBValidKey, Value>(at: IDBObjectStore | IDBIndex) => ({
  get: (key: Key): Promise<Value | undefined> => answered(at.get(key)),
  getKey: (key: Key) => answered(at.getKey(key)),
  getAll: (key?: Key): Promise<Value[]> => answered(at.getAll(key)),
  count: () => answered(at.count()),
});

const shelf = <Of extends Shelves[string]>(at: IDBObjectStore) => ({
  ...looking<Of["key"], Of["value"]>(at),
  add: (value: Of["value"]) => answered(at.add(value)) as Promise<Of["key"]>,
  put: (value: Of["value"], key?: Of["key"]) => answered(at.put(value, key)),
  delete: (key: Of["key"]) => answered(at.delete(key)),
  index: <Name extends keyof Of["indexes"] & string>(name: Name) =>
    looking<Of["indexes"][Name], Of["value"]>(at.index(name)),
});

export type Shelf<Of extends Shelves[string]> = ReturnType<typeof shelf<Of>>;

/** A database of the browser's with promises: a request gives its answer, a transaction its end. */
export interface IndexedStore<All extends Shelves> {
  /** `done` comes when all is written, on the disk itself where it is strict, and fails where nothing was */
  transaction<Name extends keyof All & string>(
    names: Name | Name[],
    mode?: IDBTransactionMode,
    options?: IDBTransactionOptions,
  ): {
    objectStore: <One extends Name>(name: One) => Shelf<All[One]>;
    done: Promise<void>;
  };
}

const withPromises = <All extends Shelves>(database: IDBDatabase): IndexedStore<All> => ({
  transaction(names, mode, options) {
    const transaction = database.transaction(names, mode, options);
    const done = new Promise<void>((resolve, reject) => {
      transaction.oncomplete = () => resolve();
      transaction.onabort = () => reject(transaction.error);
    });
    // who does not wait for the end has been told by the request that failed
    done.catch(() => undefined);
    return { objectStore: (name) => shelf(transaction.objectStore(name)), done };
  },
});

/**
 * Opens a database. @param build makes what is in it, as far as the version that is there has it not; 0: none is there
 * @param lost called when the browser takes it away
 * @throws where the browser denies it
 */
export async function openStore<All extends Shelves>(
  name: string,
  build: (database: IDBDatabase, transaction: IDBTransaction, version: number) => void,
  lost: () => void,
): Promise<IndexedStore<All>> {
  const opening = indexedDB.open(name, 2);
  opening.onupgradeneeded = ({ oldVersion }) =>
    build(opening.result, opening.transaction as IDBTransaction, oldVersion);
  const database = await answered(opening);
  database.onclose = lost;
  // a page that needs another form of it waits until this one lets go
  database.onversionchange = () => {
    lost();
    database.close();
  };
  return withPromises(database);
}
