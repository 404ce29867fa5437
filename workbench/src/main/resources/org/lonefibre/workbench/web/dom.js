// Makes elements. Text is only ever set as text: what comes from a file cannot become markup.

/**
 * @param {string} tag
 * @param {Object<string, any>} [properties] attributes; on... are listeners
 * @param {...(Node|string|number|null|undefined|Array<any>)} children
 * @returns {HTMLElement}
 */
export function el(tag, properties = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(properties)) {
    if (value === null || value === undefined || value === false) continue;
    if (name.startsWith('on')) element.addEventListener(name.slice(2), value);
    else if (name === 'value') element.value = value;
    else if (name === 'checked' || name === 'disabled' || name === 'open') element[name] = value;
    else element.setAttribute(name, value === true ? '' : String(value));
  }
  for (const child of children.flat(9)) {
    if (child !== null && child !== undefined && child !== false) {
      element.append(child instanceof Node ? child : String(child));
    }
  }
  return element;
}

/** Puts other content in the place of all there was. @param {Element} place @param {...any} content */
export function fill(place, ...content) {
  place.replaceChildren(...content.flat(9).filter((c) => c !== null && c !== undefined && c !== false));
}

/** Says something to eyes and ears. @param {string} text @param {'status'|'alert'} [kind] */
export function say(text, kind = 'status') {
  const place = document.getElementById(kind);
  place.textContent = text;
  clearTimeout(Number(place.dataset.timer));
  place.dataset.timer = String(setTimeout(() => { place.textContent = ''; }, kind === 'alert' ? 15000 : 7000));
}

let fields = 0;

/** A labelled control. @param {string} label @param {HTMLElement} control */
export function field(label, control) {
  control.id = control.id || `field-${++fields}`;
  return el('div', { class: 'field' }, el('label', { for: control.id }, label), control);
}

/** A selection. @param {Array<[string, string]>} options value and words @param {string} value */
export function choice(options, value, more = {}) {
  const select = el('select', more, options.map(([v, words]) => el('option', { value: v }, words)));
  select.value = value;
  return select;
}

/** A table with a caption. @param {string} caption @param {string[]} heads @param {any[][]} rows @param {number[]} [numeric] */
export function table(caption, heads, rows, numeric = []) {
  return el('div', { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': caption },
    el('table', {}, el('caption', {}, caption),
      el('thead', {}, el('tr', {}, heads.map((h, i) => el('th', { scope: 'col', class: numeric.includes(i) ? 'n' : null }, h)))),
      el('tbody', {}, rows.map((r) => el('tr', {}, r.map((c, i) =>
        i === 0 ? el('th', { scope: 'row' }, c) : el('td', { class: numeric.includes(i) ? 'n' : null }, c)))))));
}

/** A number with so many decimals, or words where there is none; what rounds to nothing has no sign. */
export function number(value, decimals = 1) {
  if (value === null || value === undefined) return 'not known';
  const text = value.toFixed(decimals);
  return Number(text) === 0 ? text.replace('-', '') : text;
}

/** A text of the chain with the signs of its units: it writes us and uV, as documents are plain. @param {string} text */
export const units = (text) => text.replace(/(\d) u([sV])\b/g, '$1 µ$2');

/** A probability, never shown as 0 or 1; the report rounds the same way. */
export function probability(value) {
  if (value === null || value === undefined) return number(value);
  if (value > 0.99) return '>0.99';
  return value < 0.01 ? '<0.01' : number(value, 2);
}

/** A number beside its limit: with as many decimals as it takes to see on which side it lies. */
export function besideLimit(value, limit) {
  if (value === null || value === undefined || limit === null || limit === undefined) return number(value);
  let decimals = 1;
  while (decimals < 6 && value !== limit && Number(value.toFixed(decimals)) === limit) decimals += 1;
  return number(value, decimals);
}

/** Opens a dialog; the answer is what `read` gives, or null when it is closed. */
export function ask(title, content, read, action = 'Do it') {
  return new Promise((resolve) => {
    const problem = el('p', { role: 'alert' });
    const dialog = el('dialog', { 'aria-labelledby': 'dialog-title' },
      el('h2', { id: 'dialog-title' }, title), content, problem,
      el('div', { class: 'row' },
        el('button', { class: 'main', onclick: () => {
          const answer = read();
          if (typeof answer === 'string') { problem.textContent = answer; return; }
          dialog.close(); resolve(answer);
        } }, action),
        el('button', { onclick: () => { dialog.close(); resolve(null); } }, 'Close without change')));
    dialog.addEventListener('cancel', () => resolve(null));
    dialog.addEventListener('close', () => dialog.remove());
    document.body.append(dialog);
    dialog.showModal();
  });
}

const paper = new CSSStyleSheet();
document.adoptedStyleSheets = [paper];

/** What stands on top of each printed page. @param {string} words */
export function identity(words) {
  const text = words.replace(/["\\\n\r\f]/g, ' ');
  paper.replaceSync(`@page { @top-left { content: "${text}"; font: 9pt sans-serif; } }`);
}
