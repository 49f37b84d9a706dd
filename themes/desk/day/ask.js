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

// Later and later, but never later than this.
export function waitOf(tries) {
  return Math.min(15000, 1000 * 2 ** Math.min(tries, 4));
}
