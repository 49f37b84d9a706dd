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

/*
What is asked of the desk. A desk that does not answer is Gone, and everything is asked again later; a
desk that was started anew wants another token, which is fetched without a word.
*/

export const API = "/_/api";
const PATIENCE = 30000;

export class Gone extends Error {}

let token = null;

export async function tokenOf(fresh = false) {
  if (fresh) token = null;
  token ??= fetch(`${API}/token`, { cache: "no-store", signal: AbortSignal.timeout(PATIENCE) })
    .then((answer) => (answer.ok ? answer.json() : Promise.reject(new Gone())))
    .then((told) => told.token);
  try {
    return await token;
  } catch {
    token = null;
    throw new Gone();
  }
}

// The status and what was answered; throws Gone when nobody answers.
export async function ask(path, json, again = true) {
  const headers = { "X-Journal-Token": await tokenOf() };
  const body = json === undefined ? undefined : JSON.stringify(json);
  if (body) headers["Content-Type"] = "application/json";
  const method = body ? "POST" : "DELETE";
  let answer;
  let data = null;
  try {
    answer = await fetch(API + path, { method, headers, body, signal: AbortSignal.timeout(PATIENCE) });
    if (isJson(answer.headers.get("Content-Type"))) data = await answer.json();
  } catch {
    throw new Gone();
  }
  if (answer.status === 409 && data === null && again) {
    await tokenOf(true);
    return ask(path, json, false);
  }
  return { status: answer.status, data: data ?? {} };
}

export async function get(path) {
  try {
    const answer = await fetch(API + path, { cache: "no-store", signal: AbortSignal.timeout(PATIENCE) });
    return { status: answer.status, data: isJson(answer.headers.get("Content-Type")) ? await answer.json() : {} };
  } catch {
    throw new Gone();
  }
}

const isJson = (kind) => (kind || "").startsWith("application/json");

// Sends a picture and tells how much of it has gone.
export async function send(path, blob, name, tell, again = true) {
  const told = await tokenOf();
  const { status, kind, text } = await new Promise((resolve, reject) => {
    const asked = new XMLHttpRequest();
    asked.open("POST", API + path);
    asked.setRequestHeader("X-Journal-Token", told);
    asked.setRequestHeader("X-Picture-Name", encodeURIComponent(name));
    asked.setRequestHeader("Content-Type", "application/octet-stream");
    asked.upload.onprogress = (event) => event.lengthComputable && tell(event.loaded / event.total);
    asked.onload = () => resolve({ status: asked.status, kind: asked.getResponseHeader("Content-Type"), text: asked.responseText });
    asked.onerror = () => reject(new Gone());
    asked.send(blob);
  });
  if (status === 409 && !isJson(kind) && again) {
    await tokenOf(true);
    return send(path, blob, name, tell, false);
  }
  return { status, data: isJson(kind) ? JSON.parse(text) : {}, text };
}

// A script that is asked for when it is needed, and asked again until the desk answers.
export async function script(name, tries = 0) {
  try {
    return await import(`./${name}${tries ? `?${tries}` : ""}`);
  } catch (fault) {
    if (!(fault instanceof TypeError)) throw fault;
    await new Promise((done) => setTimeout(done, waitOf(tries)));
    return script(name, tries + 1);
  }
}

// Later and later, but never later than this.
export function waitOf(tries) {
  return Math.min(15000, 1000 * 2 ** Math.min(tries, 4));
}
