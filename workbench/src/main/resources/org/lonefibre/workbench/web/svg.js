// A drawing as SVG: takes the calls of a plot in place of a canvas and writes them down.

const SPACE = 'http://www.w3.org/2000/svg';
const escaped = (text) => String(text).replace(/[<>&"]/g, (c) => `&#${c.charCodeAt(0)};`);
const short = (v) => String(Math.round(v * 100) / 100);

/** What plots use of a canvas, written as elements of an SVG. */
export class SvgContext {
  /** @param {number} width @param {number} height @param {CanvasRenderingContext2D} measure */
  constructor(width, height, measure) {
    this.width = width; this.height = height; this.measure = measure;
    this.root = { name: 'svg', of: {}, inside: [] }; this.groups = [this.root];
    this.path = ''; this.dash = [];
    this.fillStyle = '#000'; this.strokeStyle = '#000'; this.lineWidth = 1; this.globalAlpha = 1;
    this.textAlign = 'left'; this.textBaseline = 'alphabetic'; this.saved = [];
  }
  /** @param {string} name @param {Object<string, any>} of attributes @param {any[]} inside */
  put(name, of, inside = []) {
    const element = { name, of: this.globalAlpha === 1 ? of : { ...of, opacity: this.globalAlpha }, inside };
    this.groups.at(-1).inside.push(element);
    return element;
  }
  beginPath() { this.path = ''; }
  moveTo(x, y) { this.path += `M${short(x)} ${short(y)}`; }
  lineTo(x, y) { this.path += `${this.path ? 'L' : 'M'}${short(x)} ${short(y)}`; }
  closePath() { this.path += 'Z'; }
  rect(x, y, w, h) { this.path += `M${short(x)} ${short(y)}h${short(w)}v${short(h)}h${short(-w)}Z`; }
  /** Plots draw whole circles only. */
  arc(x, y, r) { this.path += `M${short(x - r)} ${short(y)}a${short(r)} ${short(r)} 0 1 0 ${short(2 * r)} 0a${short(r)} ${short(r)} 0 1 0 ${short(-2 * r)} 0Z`; }
  pen() { return { fill: 'none', stroke: this.strokeStyle, 'stroke-width': this.lineWidth, 'stroke-linejoin': 'round', ...(this.dash.length ? { 'stroke-dasharray': this.dash.join(' ') } : {}) }; }
  stroke() { if (this.path) this.put('path', { d: this.path, ...this.pen() }); }
  fill() { if (this.path) this.put('path', { d: this.path, fill: this.fillStyle }); }
  fillRect(x, y, w, h) { this.put('rect', { x: short(Math.min(x, x + w)), y: short(Math.min(y, y + h)), width: short(Math.abs(w)), height: short(Math.abs(h)), fill: this.fillStyle }); }
  strokeRect(x, y, w, h) { this.put('rect', { x: short(x), y: short(y), width: short(Math.abs(w)), height: short(Math.abs(h)), ...this.pen() }); }
  clearRect() { /* the sheet is blank */ }
  setTransform() { /* one unit is one pixel */ }
  setLineDash(dash) { this.dash = dash; }
  measureText(text) { return this.measure.measureText(text); }
  fillText(text, x, y) {
    const anchor = { center: 'middle', right: 'end' }[this.textAlign] ?? 'start';
    const down = { top: 11, middle: 4.5, bottom: -3 }[this.textBaseline] ?? 0;
    this.put('text', { x: short(x), y: short(y + down), 'text-anchor': anchor, fill: this.fillStyle }, [String(text)]);
  }
  save() { this.saved.push(this.groups.length); }
  restore() { this.groups.length = this.saved.pop() ?? 1; }
  clip() {
    const id = `clip-${++clips}`;
    this.put('clipPath', { id }, [{ name: 'path', of: { d: this.path }, inside: [] }]);
    this.groups.push(this.put('g', { 'clip-path': `url(#${id})` }));
    this.path = '';
  }

  /** The whole drawing. @param {string} title @param {string} words @param {string} sheet colour of the paper */
  whole(title, words, sheet) {
    return { name: 'svg', of: { width: this.width, height: this.height, viewBox: `0 0 ${this.width} ${this.height}`, role: 'img', 'font-family': 'Noto Sans, DejaVu Sans, sans-serif', 'font-size': 13 },
      inside: [{ name: 'title', of: {}, inside: [title] }, { name: 'desc', of: {}, inside: [words] }, { name: 'rect', of: { width: '100%', height: '100%', fill: sheet }, inside: [] }, ...this.root.inside] };
  }

  /** As a file. */
  text(title, words, sheet) {
    const written = (e) => (typeof e === 'string' ? escaped(e) : `<${e.name}${Object.entries(e.of).map(([k, v]) => ` ${k}="${escaped(v)}"`).join('')}>${e.inside.map(written).join('')}</${e.name}>`);
    return `<?xml version="1.0" encoding="UTF-8"?>\n${written(this.whole(title, words, sheet)).replace('<svg', `<svg xmlns="${SPACE}"`)}\n`;
  }

  /** As an element of the page. @returns {SVGElement} */
  element(title, words, sheet) {
    const made = (e) => {
      if (typeof e === 'string') return document.createTextNode(e);
      const element = document.createElementNS(SPACE, e.name);
      for (const [k, v] of Object.entries(e.of)) element.setAttribute(k, String(v));
      element.append(...e.inside.map(made));
      return element;
    };
    return /** @type {any} */ (made(this.whole(title, words, sheet)));
  }
}

/** Names of clips are of the page. */
let clips = 0;
