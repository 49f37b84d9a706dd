/*
What is typed is kept on this device until the desk has said that it is on the disk: words at every
key, pictures as soon as they are taken.

The local network is plain HTTP, where a browser gives a page less than elsewhere: no randomUUID, no
service worker, no promise that storage stays. What does not work is said, and nothing depends on it.
*/

const PREFIX = "journal:";
const STORE = "pictures";

export const device = matchMedia("(pointer: coarse)").matches ? "phone" : "computer";

export function newName() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, "0")).join("");
}

export function load(slot) {
  try {
    return JSON.parse(localStorage.getItem(PREFIX + slot));
  } catch {
    return null;
  }
}

// Whether the device took it.
export function put(slot, value) {
  try {
    localStorage.setItem(PREFIX + slot, JSON.stringify(value));
    return true;
  } catch {
    return false;
  }
}

export function drop(slot) {
  try {
    localStorage.removeItem(PREFIX + slot);
  } catch {
    // A device that keeps nothing has nothing to forget.
  }
}

export function slots() {
  try {
    return Object.keys(localStorage).filter((key) => key.startsWith(PREFIX)).map((key) => key.slice(PREFIX.length));
  } catch {
    return [];
  }
}

// Another window of this device has written into a slot.
export function whenWrittenElsewhere(slot, tell) {
  addEventListener("storage", (event) => {
    if (event.key === PREFIX + slot) tell(event.newValue === null ? null : JSON.parse(event.newValue));
  });
}

let opened = null;

function store() {
  opened ??= new Promise((resolve, reject) => {
    const asked = indexedDB.open("journal-desk", 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore(STORE, { keyPath: "key" });
    asked.onsuccess = () => resolve(asked.result);
    asked.onerror = () => reject(asked.error);
  });
  return opened;
}

async function within(mode, work) {
  const base = await store();
  return new Promise((resolve, reject) => {
    const transaction = base.transaction(STORE, mode);
    const asked = work(transaction.objectStore(STORE));
    transaction.oncomplete = () => resolve(asked.result);
    transaction.onabort = () => reject(transaction.error);
    transaction.onerror = () => reject(transaction.error);
  });
}

// Whether the device took the picture; one that it did not is there as long as the page is open.
export async function putPicture(picture) {
  try {
    await within("readwrite", (pictures) => pictures.put(picture));
    return true;
  } catch {
    return false;
  }
}

export async function picturesOf(draft) {
  try {
    const all = await within("readonly", (pictures) => pictures.getAll());
    return all.filter((picture) => picture.draft === draft).sort((a, b) => a.order - b.order);
  } catch {
    return [];
  }
}

export async function dropPicture(key) {
  try {
    await within("readwrite", (pictures) => pictures.delete(key));
  } catch {
    // It lies there until the browser clears it away.
  }
}
