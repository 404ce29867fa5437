// A drawing as SVG: takes the calls of a plot in place of a canvas and writes them down.

const escaped = (text) => String(text).replace(/[<>&"]/g, (c) => `&#${c.charCodeAt(0)};`);
const short = (v) => String(Math.round(v * 100) / 100);

/** What plots use of a canvas, written as elements of an SVG. */
export class SvgContext {
  /** @param {number} width @param {number} height @param {CanvasRenderingContext2D} measure */
  constructor(width, height, measure) {
    this.width = width; this.height = height; this.measure = measure;
    this.parts = []; this.path = ''; this.dash = []; this.open = 0; this.clips = 0;
    this.fillStyle = '#000'; this.strokeStyle = '#000'; this.lineWidth = 1; this.globalAlpha = 1;
    this.textAlign = 'left'; this.textBaseline = 'alphabetic'; this.saved = [];
  }
  beginPath() { this.path = ''; }
  moveTo(x, y) { this.path += `M${short(x)} ${short(y)}`; }
  lineTo(x, y) { this.path += `${this.path ? 'L' : 'M'}${short(x)} ${short(y)}`; }
  closePath() { this.path += 'Z'; }
  rect(x, y, w, h) { this.path += `M${short(x)} ${short(y)}h${short(w)}v${short(h)}h${short(-w)}Z`; }
  /** Plots draw whole circles only. */
  arc(x, y, r) { this.path += `M${short(x - r)} ${short(y)}a${short(r)} ${short(r)} 0 1 0 ${short(2 * r)} 0a${short(r)} ${short(r)} 0 1 0 ${short(-2 * r)} 0Z`; }
  alpha() { return this.globalAlpha === 1 ? '' : ` opacity="${this.globalAlpha}"`; }
  pen() { return `fill="none" stroke="${escaped(this.strokeStyle)}" stroke-width="${this.lineWidth}" stroke-linejoin="round"${this.dash.length ? ` stroke-dasharray="${this.dash.join(' ')}"` : ''}${this.alpha()}`; }
  stroke() { if (this.path) this.parts.push(`<path d="${this.path}" ${this.pen()}/>`); }
  fill() { if (this.path) this.parts.push(`<path d="${this.path}" fill="${escaped(this.fillStyle)}"${this.alpha()}/>`); }
  fillRect(x, y, w, h) { this.parts.push(`<rect x="${short(Math.min(x, x + w))}" y="${short(Math.min(y, y + h))}" width="${short(Math.abs(w))}" height="${short(Math.abs(h))}" fill="${escaped(this.fillStyle)}"${this.alpha()}/>`); }
  strokeRect(x, y, w, h) { this.parts.push(`<rect x="${short(x)}" y="${short(y)}" width="${short(Math.abs(w))}" height="${short(Math.abs(h))}" ${this.pen()}/>`); }
  clearRect() { /* the sheet is blank */ }
  setTransform() { /* one unit is one pixel */ }
  setLineDash(dash) { this.dash = dash; }
  measureText(text) { return this.measure.measureText(text); }
  fillText(text, x, y) {
    const anchor = { center: 'middle', right: 'end' }[this.textAlign] ?? 'start';
    const down = { top: 11, middle: 4.5, bottom: -3 }[this.textBaseline] ?? 0;
    this.parts.push(`<text x="${short(x)}" y="${short(y + down)}" text-anchor="${anchor}" fill="${escaped(this.fillStyle)}"${this.alpha()}>${escaped(text)}</text>`);
  }
  save() { this.saved.push(this.open); }
  restore() { const before = this.saved.pop() ?? 0; while (this.open > before) { this.parts.push('</g>'); this.open -= 1; } }
  clip() { const id = `clip${++this.clips}`; this.parts.push(`<clipPath id="${id}"><path d="${this.path}"/></clipPath><g clip-path="url(#${id})">`); this.open += 1; this.path = ''; }

  /** @param {string} title @param {string} words @param {string} sheet colour of the paper */
  text(title, words, sheet) {
    return `<?xml version="1.0" encoding="UTF-8"?>\n<svg xmlns="http://www.w3.org/2000/svg" width="${this.width}" height="${this.height}" viewBox="0 0 ${this.width} ${this.height}" role="img" font-family="Noto Sans, DejaVu Sans, sans-serif" font-size="13"><title>${escaped(title)}</title><desc>${escaped(words)}</desc><rect width="100%" height="100%" fill="${escaped(sheet)}"/>${this.parts.join('')}</svg>\n`;
  }
}
