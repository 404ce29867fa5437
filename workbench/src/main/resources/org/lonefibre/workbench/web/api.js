// The only way to the server: every request carries the token of this launch.

const TOKEN = 'lonefibre-token';
const PERSON = 'lonefibre-person';

/** Takes the token out of the address, so that it is in no history. */
export function takeToken() {
  const found = /^#token=([A-Za-z0-9_-]+)$/.exec(location.hash);
  if (found) {
    sessionStorage.setItem(TOKEN, found[1]);
    history.replaceState(null, '', '/#/studies');
  }
}

/** @returns {string} who works */
export function person() { return localStorage.getItem(PERSON) ?? ''; }
/** @param {string} name */
export function setPerson(name) { localStorage.setItem(PERSON, name.trim()); }

function headers(more = {}) {
  return { Authorization: `Bearer ${sessionStorage.getItem(TOKEN) ?? ''}`, ...more };
}

/** A request; where nobody answers, that is said in words. @param {string} path @param {RequestInit} request */
async function ask(path, request) {
  let response;
  try { response = await fetch(path, request); } catch { throw new Error('The workbench does not answer: it was ended, or is being started. What was shown as saved is kept. Start it again and use the address it prints.'); }
  if (response.ok) return response;
  let words = `The server answered ${response.status}.`;
  try { words = (await response.json()).error ?? words; } catch { /* no words were sent */ }
  throw new Error(words);
}

/** @param {string} path @returns {Promise<any>} */
export async function get(path) { return (await ask(path, { headers: headers() })).json(); }

/** @param {string} path @returns {Promise<Response>} */
export async function getBytes(path) { return ask(path, { headers: headers() }); }

/** @param {string} path @param {any} value @returns {Promise<any>} */
export async function post(path, value) {
  const response = await ask(path, { method: 'POST', body: JSON.stringify(value), headers: headers({
    'Content-Type': 'application/json', 'Lonefibre-Request': '1', 'Lonefibre-Person': encodeURIComponent(person()) }) });
  return response.json();
}

/** Hands a recording over. @param {File} file @returns {Promise<any>} what was read of it */
export async function send(file) {
  const response = await ask('/api/recordings', { method: 'POST', body: file, headers: headers({
    'Content-Type': 'application/octet-stream', 'Lonefibre-Request': '1',
    'Lonefibre-Person': encodeURIComponent(person()), 'Lonefibre-File-Name': encodeURIComponent(file.name) }) });
  return response.json();
}

/** Watches long work to its end. @param {string} id @param {(progress: any) => void} show @returns {Promise<any>} */
export async function watch(id, show) {
  const response = await ask(`/api/jobs/${id}/events`, { headers: headers({ Accept: 'text/event-stream' }) });
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  let text = '';
  let last = null;
  for (;;) {
    const { value, done } = await reader.read();
    if (done) break;
    text += value;
    const events = text.split('\n\n');
    text = events.pop() ?? '';
    for (const event of events) {
      const data = event.split('\n').filter((l) => l.startsWith('data:')).map((l) => l.slice(5).trim()).join('');
      if (data) { last = JSON.parse(data); show(last); }
    }
  }
  return last ?? get(`/api/jobs/${id}`);
}
