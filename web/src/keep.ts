// The browser's own store: entries that wait to be sent, photos and voice
// notes beside them, and the last answer of every question asked, so that what
// was open once opens without signal.

const NAME = 'leat';
const VERSION = 1;
/** Entries in the order told; blobs by sha256; answers by path; facts by key. */
export type Shelf = 'outbox' | 'blobs' | 'answers' | 'facts';

let opened: Promise<IDBDatabase> | null = null;

function open(): Promise<IDBDatabase> {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      const db = request.result;
      db.createObjectStore('outbox', { keyPath: 'seq', autoIncrement: true });
      for (const shelf of ['blobs', 'answers', 'facts']) {
        db.createObjectStore(shelf);
      }
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
}

async function run<T>(
  shelf: Shelf, mode: IDBTransactionMode,
  act: (store: IDBObjectStore) => IDBRequest<T> | void,
): Promise<T> {
  const db = await open();
  return new Promise<T>((resolve, reject) => {
    // Strict: what the page calls kept is on the disk.
    const work = db.transaction(shelf, mode, { durability: 'strict' });
    const request = act(work.objectStore(shelf));
    work.oncomplete = () => resolve((request as IDBRequest<T>)?.result);
    work.onabort = work.onerror = () => reject(work.error);
  });
}

export const keepGet = <T>(shelf: Shelf, key: IDBValidKey) =>
  run<T | undefined>(shelf, 'readonly', (s) => s.get(key));
export const keepAll = <T>(shelf: Shelf) =>
  run<T[]>(shelf, 'readonly', (s) => s.getAll());
export const keepPut = (shelf: Shelf, value: unknown, key?: IDBValidKey) =>
  run<IDBValidKey>(shelf, 'readwrite', (s) => s.put(value, key));
export const keepDrop = (shelf: Shelf, key: IDBValidKey) =>
  run<undefined>(shelf, 'readwrite', (s) => s.delete(key));
export const keepClear = (shelf: Shelf) =>
  run<undefined>(shelf, 'readwrite', (s) => s.clear());

/** Adds all values in one transaction, in their order. */
export const keepAdd = (shelf: Shelf, values: unknown[]) =>
  run<void>(shelf, 'readwrite', (s) => {
    for (const value of values) s.add(value);
  });

/** Drops and puts in one transaction: both happen or neither. */
export async function keepSwap(
  drops: IDBValidKey[], facts: [string, unknown][],
): Promise<void> {
  const db = await open();
  return new Promise((resolve, reject) => {
    const work = db.transaction(['outbox', 'facts'], 'readwrite',
      { durability: 'strict' });
    for (const key of drops) work.objectStore('outbox').delete(key);
    for (const [key, value] of facts) work.objectStore('facts').put(value, key);
    work.oncomplete = () => resolve();
    work.onabort = work.onerror = () => reject(work.error);
  });
}
