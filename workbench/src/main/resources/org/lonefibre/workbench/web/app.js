// The frame: address, navigation, keys. Each screen is a module that fills the main part.
import { el, fill, say, ask, identity } from './dom.js';
import { takeToken, get, person, setPerson } from './api.js';
import { studies } from './studies.js';
import { study } from './study.js';
import { site } from './site.js';
import { limits } from './limits.js';
import { needle } from './needle.js';
import { changes } from './changes.js';
import { practice } from './practice.js';
import { pitfall } from './pitfalls.js';

const SCREENS = [
  [/^#\/studies$/, studies, 'Studies'],
  [/^#\/study\/([0-9a-f-]+)$/, study, 'Study'],
  [/^#\/study\/([0-9a-f-]+)\/(\d+)\/(\d+)$/, site, 'Site'],
  [/^#\/needle$/, needle, 'Needle'],
  [/^#\/limits$/, limits, 'Limits'],
  [/^#\/practice\/library\/(\d+)$/, pitfall, 'Practice'],
  [/^#\/practice(?:\/(\d+)\/(\d+))?$/, practice, 'Practice'],
  [/^#\/changes(?:\/([0-9a-f-]+))?$/, changes, 'Record of changes'],
];
const NAVIGATION = [['#/studies', 'Studies'], ['#/needle', 'Needle'], ['#/limits', 'Limits'], ['#/practice', 'Practice'], ['#/changes', 'Record of changes']];

/** Keys of the screen that is shown: letter to what it does. @type {Map<string, {words: string, run: () => void}>} */
export const keys = new Map();
/** @type {{muscles: string[], limitSets: string[], program: {name: string, version: string}}} */
export let session = { muscles: [], limitSets: [], program: { name: 'Lonefibre', version: '' } };
let leave = () => {};
let shown = 0;

function theme(wanted) {
  const dark = wanted === 'dark' || (wanted === 'system' && matchMedia('(prefers-color-scheme: dark)').matches);
  document.documentElement.dataset.theme = dark ? 'dark' : 'light';
  dispatchEvent(new Event('lonefibre-theme'));
}

function top() {
  const wanted = localStorage.getItem('lonefibre-theme') ?? 'system';
  theme(wanted);
  const switcher = el('select', { id: 'theme', onchange: (e) => { localStorage.setItem('lonefibre-theme', e.target.value); theme(e.target.value); } },
    ['system', 'light', 'dark'].map((t) => el('option', { value: t }, t)));
  switcher.value = wanted;
  fill(document.getElementById('top'),
    el('span', { class: 'name' }, 'Lonefibre'),
    el('nav', { 'aria-label': 'Screens' }, NAVIGATION.map(([href, words]) => el('a', {
      href, 'aria-current': location.hash.startsWith(href) || (href === '#/studies' && location.hash.startsWith('#/study/')) ? 'page' : null }, words))),
    el('label', {}, 'Working as', el('input', { id: 'person', value: person(), size: 16, maxlength: 80, autocomplete: 'off',
      onchange: (e) => { setPerson(e.target.value); say(`Working as ${e.target.value}`); } })),
    el('label', {}, 'Colours', switcher),
    el('button', { onclick: help, 'aria-label': 'Keys and help' }, '?'));
}

async function show() {
  const turn = ++shown;
  leave();
  leave = () => {};
  keys.clear();
  top();
  const main = document.getElementById('main');
  const hash = location.hash || '#/studies';
  const screen = SCREENS.find(([pattern]) => pattern.test(hash));
  if (!screen) { location.hash = '#/studies'; return; }
  document.title = `${screen[2]} · Lonefibre`;
  identity(document.title);
  // What was wrong on the screen before is not wrong here.
  if (turn > 1) document.getElementById('alert').textContent = '';
  main.setAttribute('aria-busy', 'true');
  try {
    const ended = await screen[1](main, ...(screen[0].exec(hash) ?? []).slice(1));
    if (turn === shown && ended) leave = ended;
  } catch (fault) {
    fill(main, el('h1', {}, 'This could not be shown'), el('p', { role: 'alert' }, fault.message),
      el('p', {}, el('a', { href: '#/studies' }, 'To the studies')));
  }
  main.setAttribute('aria-busy', 'false');
  if (turn === shown && turn > 1) main.focus({ preventScroll: true });
  main.dataset.ready = hash;
}

/** Shows the same screen again. */
export function again() { return show(); }

function lettersOn() { return localStorage.getItem('lonefibre-letters') !== 'off'; }

function help() {
  const letters = el('input', { type: 'checkbox', id: 'letters', checked: lettersOn(),
    onchange: (e) => localStorage.setItem('lonefibre-letters', e.target.checked ? 'on' : 'off') });
  ask('Keys', el('div', {},
    el('p', {}, 'Everything can be done with Tab, Enter and the arrow keys. On this screen there are also:'),
    el('dl', {}, [...keys].map(([key, what]) => [el('dt', {}, el('kbd', {}, key)), el('dd', {}, what.words)]), el('dt', {}, el('kbd', {}, '?')), el('dd', {}, 'this list')),
    el('div', { class: 'check' }, letters, el('label', { for: 'letters' }, 'Single letters do something'))), () => true, 'Good');
}

addEventListener('keydown', (event) => {
  const target = /** @type {HTMLElement} */ (event.target);
  if (/^(INPUT|SELECT|TEXTAREA)$/.test(target.tagName) || document.querySelector('dialog[open]')) return;
  if (event.altKey) return;
  const key = (event.ctrlKey || event.metaKey ? 'Ctrl+' : '') + (event.shiftKey && event.key.length === 1 && event.ctrlKey ? 'Shift+' : '') + (event.ctrlKey ? event.key.toLowerCase() : event.key);
  if (key === '?' && lettersOn()) { event.preventDefault(); help(); return; }
  const found = keys.get(key);
  if (found && (key.length > 1 || lettersOn())) { event.preventDefault(); found.run(); }
});
addEventListener('hashchange', show);
matchMedia('(forced-colors: active)').addEventListener('change', () => dispatchEvent(new Event('lonefibre-theme')));
matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => theme(localStorage.getItem('lonefibre-theme') ?? 'system'));
addEventListener('unhandledrejection', (event) => { event.preventDefault(); say(event.reason?.message ?? String(event.reason), 'alert'); });

takeToken();
try { session = await get('/api/session'); } catch (fault) { say(fault.message, 'alert'); }
if (session.archive) document.getElementById('leaves').textContent = `Reports go to ${session.archive} when a person sends one; nothing else leaves this computer.`;
show();
