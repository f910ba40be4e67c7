// Asks the server that served this page. Addresses are relative: the token stays in the page's own.

export class Refused extends Error {
  constructor(sentences) {
    super(sentences.join("\n"));
    this.sentences = sentences;
  }
}

export class Conflict extends Error {
  constructor(words, which) {
    super(words);
    this.which = which;
  }
}

export class Unreachable extends Error {}

export async function ask(name, said = {}, signal = undefined) {
  const response = await send(name, JSON.stringify(said), "application/json", signal);
  return response.json();
}

export async function askForFile(name, said, signal = undefined) {
  const response = await send(name, JSON.stringify(said), "application/json", signal);
  const given = /filename\*=UTF-8''(\S+)/.exec(response.headers.get("content-disposition") ?? "");
  return { name: given ? decodeURIComponent(given[1]) : "page.html", blob: await response.blob() };
}

export async function sendFile(name, blob, signal = undefined) {
  const response = await send(name, blob, "application/octet-stream", signal);
  return response.json();
}

async function send(name, body, type, signal) {
  let response;
  try {
    response = await fetch(name, { method: "POST", headers: { "content-type": type }, body, signal });
  } catch (trouble) {
    if (trouble.name === "AbortError") throw trouble;
    throw new Unreachable("The program behind this page has stopped. Start it again with kerfline view, and this page goes on; it is being tried again and again.");
  }
  if (response.ok) return response;
  const told = await response.json().catch(() => ({}));
  if (response.status === 409) throw new Conflict(told.conflict, told.which);
  if (told.refused) throw new Refused(told.refused);
  throw new Refused([response.status === 413 ? "This is too large." : `The program could not do this (${response.status}).`]);
}
