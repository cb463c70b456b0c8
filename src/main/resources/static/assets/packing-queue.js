// Checks that the server does not have yet, in this browser's own database, in the order in which they were made.
// A check is there once add() is done: "strict" has the browser write it to the disk before it says so.
const STORE = "checks";
let opened;

function database() {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open("tareline-packing", 1);
    request.onupgradeneeded = () => request.result.createObjectStore(STORE, { keyPath: "number", autoIncrement: true });
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return opened;
}

async function change(doing) {
  const transaction = (await database()).transaction(STORE, "readwrite", { durability: "strict" });
  doing(transaction.objectStore(STORE));
  return new Promise((resolve, reject) => {
    transaction.oncomplete = resolve;
    transaction.onabort = () => reject(transaction.error);
  });
}

export const add = (check) => change((store) => store.add(check));

export const remove = (checks) => change((store) => checks.forEach((check) => store.delete(check.number)));

/** Those of one account in one ledger, the oldest first. */
export async function waitingOf(owner) {
  const request = (await database()).transaction(STORE).objectStore(STORE).getAll();
  const all = await new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
  return all.filter((check) => check.owner === owner);
}
