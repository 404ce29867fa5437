// Needle, further down: lines of equal potential, fall-off, filter against background, a second fibre, a sample muscle.
import { el, fill, field, choice, table, number } from './dom.js';
import { figure, scale, ticks, axes } from './plots.js';

const STROKES = [[], [8, 4]];

function legend(c, inks, x, y, names) {
  names.forEach((name, i) => {
    c.strokeStyle = i % 2 ? inks.raise : inks.accent; c.lineWidth = 2; c.setLineDash(STROKES[i % 2]);
    c.beginPath(); c.moveTo(x, y + i * 20); c.lineTo(x + 30, y + i * 20); c.stroke(); c.setLineDash([]);
    c.fillStyle = inks.ink; c.textAlign = 'left'; c.textBaseline = 'middle'; c.fillText(name, x + 36, y + i * 20);
  });
}

/** Places where a level is crossed on the sides of each cell, as short lines. */
function contour(s, level, draw) {
  const cut = (a, b) => (a === null || b === null || (a < level) === (b < level) ? null : (level - a) / (b - a));
  for (let j = 0; j + 1 < s.upMm.length; j++) {
    for (let i = 0; i + 1 < s.acrossMm.length; i++) {
      const [a, b, c, d] = [s.leadOhm[j][i], s.leadOhm[j][i + 1], s.leadOhm[j + 1][i + 1], s.leadOhm[j + 1][i]];
      if (a === null || b === null || c === null || d === null) continue;
      const at = (t, i0, j0, i1, j1) => (t === null ? null : [s.acrossMm[i0] + t * (s.acrossMm[i1] - s.acrossMm[i0]), s.upMm[j0] + t * (s.upMm[j1] - s.upMm[j0])]);
      const found = [at(cut(a, b), i, j, i + 1, j), at(cut(b, c), i + 1, j, i + 1, j + 1), at(cut(c, d), i + 1, j + 1, i, j + 1), at(cut(d, a), i, j + 1, i, j)].filter(Boolean);
      for (let k = 0; k + 1 < found.length; k += 2) draw(found[k], found[k + 1]);
    }
  }
}

/** @param {string} needle @param {any[]} sections */
export function sectionsFigures(needle, sections) {
  const levels = [10, 30, 100, 300, 1000, 3000, 10000];
  return sections.map((s) => {
    const values = s.leadOhm.flat().filter((v) => v !== null);
    const inside = s.leadOhm.flat().length - values.length;
    const used = levels.filter((l) => values.some((v) => v > l) && values.some((v) => v < l));
    const reach = (level) => {
      const middle = Math.floor(s.acrossMm.length / 2);
      const column = s.upMm.map((mm, j) => [mm, s.leadOhm[j][middle]]).filter(([mm, v]) => mm > 0 && v !== null);
      const last = column.filter(([, v]) => v >= level).pop();
      return last ? number(last[0], 2) : 'nowhere on it';
    };
    return figure({
      name: `Lines of equal potential ${s.name}, ${needle}`, height: 420,
      sentence: `${needle}, ${s.name}: where a current of 1 A would give so much between core and reference, in Ω; the other way round, the lines of equal potential of a current through the needle. Dashed lines are negative. The needle is hatched${inside ? '' : ' (none of it lies in this plane)'}.`,
      twin: table(`Lines of equal potential ${s.name}, ${needle}`, ['Lead, Ω', 'Reaches out of the core to, mm'], used.map((l) => [l, reach(l)]), [0, 1]),
      draw: (c, w, h, inks) => {
        const size = Math.min(w - 80, ((h - 60) * (s.acrossMm.at(-1) - s.acrossMm[0])) / (s.upMm.at(-1) - s.upMm[0]));
        const left = Math.max(60, (w - size) / 2);
        const box = { left, right: left + size, top: 22, bottom: h - 44 };
        const x = scale(s.acrossMm[0], s.acrossMm.at(-1), box.left, box.right); const y = scale(s.upMm[0], s.upMm.at(-1), box.bottom, box.top);
        const cell = x(s.acrossMm[1]) - x(s.acrossMm[0]); const tall = y(s.upMm[0]) - y(s.upMm[1]);
        c.strokeStyle = inks.soft; c.lineWidth = 1; c.beginPath();
        s.leadOhm.forEach((row, j) => row.forEach((v, i) => {
          if (v !== null) return;
          c.moveTo(x(s.acrossMm[i]) - cell / 2, y(s.upMm[j]) + tall / 2); c.lineTo(x(s.acrossMm[i]) + cell / 2, y(s.upMm[j]) - tall / 2);
        }));
        c.stroke();
        const labels = [];
        for (const sign of [1, -1]) {
          for (const level of levels) {
            c.strokeStyle = sign > 0 ? inks.accent : inks.raise; c.setLineDash(sign > 0 ? [] : [5, 4]); c.lineWidth = level >= 1000 ? 2 : 1.25;
            c.beginPath(); let highest = null;
            contour(s, sign * level, (from, to) => { c.moveTo(x(from[0]), y(from[1])); c.lineTo(x(to[0]), y(to[1])); if (!highest || from[1] > highest[1]) highest = from; });
            c.stroke(); c.setLineDash([]);
            if (highest && sign > 0 && !labels.some(([lx, ly]) => Math.abs(lx - x(highest[0])) < 60 && Math.abs(ly - y(highest[1])) < 15)) { labels.push([x(highest[0]), y(highest[1])]); c.fillStyle = inks.sheet; const words = `${level} Ω`; const wide = c.measureText(words).width; c.fillRect(x(highest[0]) - wide / 2 - 2, y(highest[1]) - 8, wide + 4, 16); c.fillStyle = inks.ink; c.textAlign = 'center'; c.textBaseline = 'middle'; c.fillText(words, x(highest[0]), y(highest[1])); }
          }
        }
        axes(c, inks, x, y, box, s.acrossName, s.upName, ticks(s.acrossMm[0], s.acrossMm.at(-1), 6), ticks(s.upMm[0], s.upMm.at(-1), 6));
      },
    });
  });
}

/** @param {any[]} documents */
export function fallOff(documents) {
  const lines = documents.map((d) => ({ name: `${d.needle}, ${number(d.highPassHz, 0)} Hz`, at: d.contributions.map((p) => [p.distanceMm, p.total]) }));
  const all = lines.flatMap((l) => l.at);
  return figure({
    name: 'Fall-off', height: 300,
    sentence: `Size of a fibre of ${number(documents[0].fibreUm, 0)} µm by its distance from the core, both axes logarithmic; guides at 200 and 50 µV. ${documents.map((d) => `${d.needle} reaches 200 µV to ${number(d.uptakeMm.at200Uv, 2)} mm and 50 µV to ${number(d.uptakeMm.at50Uv, 2)} mm`).join('; ')}.`,
    twin: table('Fall-off', ['Distance, mm', ...lines.map((l) => `${l.name}, µV`)], lines[0].at.map(([mm], i) => [mm, ...lines.map((l) => number(l.at[i][1]))]), lines[0].at.map((r, i) => i)),
    draw: (c, w, h, inks) => {
      const box = { left: 62, right: w - 16, top: 24, bottom: h - 44 };
      const [lx, ly] = [scale(Math.log(Math.min(...all.map((p) => p[0]))), Math.log(Math.max(...all.map((p) => p[0]))), box.left + 4, box.right), scale(Math.log(Math.max(0.5, 0.9 * Math.min(...all.map((p) => p[1])))), Math.log(1.3 * Math.max(...all.map((p) => p[1]))), box.bottom - 4, box.top)];
      const x = (v) => lx(Math.log(v)); const y = (v) => ly(Math.log(Math.max(0.5, v)));
      axes(c, inks, x, y, box, 'distance, mm', 'µV', [0.05, 0.1, 0.2, 0.5, 1, 2], [1, 5, 10, 50, 200, 1000, 5000].filter((v) => y(v) < box.bottom && y(v) > box.top));
      c.strokeStyle = inks.line; c.setLineDash([2, 4]); c.lineWidth = 1;
      for (const v of [200, 50]) { c.beginPath(); c.moveTo(box.left, y(v)); c.lineTo(box.right, y(v)); c.stroke(); }
      lines.forEach((l, i) => { c.strokeStyle = i ? inks.raise : inks.accent; c.lineWidth = 2; c.setLineDash(STROKES[i]); c.beginPath(); l.at.forEach(([mm, v]) => c.lineTo(x(mm), y(v))); c.stroke(); });
      c.setLineDash([]);
      legend(c, inks, box.right - 250, box.top + 12, lines.map((l) => l.name));
    },
  });
}

/** The lowest filter that brings distant fibres to the target, and what it costs. @param {any[]} documents */
export function filterCost(documents) {
  const parts = documents.map((d) => ({ name: d.needle, ...d.muscle.background }));
  const target = parts[0].targetUv;
  const needed = (p) => (p.lowestHighPassHz === null ? 'even 5 kHz do not bring it there' : p.lowestHighPassHz === 0 ? 'no filter is needed' : `${number(p.lowestHighPassHz, 0)} Hz are needed`);
  const cost = (p) => {
    const cut = p.cuts.find((q) => q.highPassHz === p.lowestHighPassHz);
    return cut ? ` and leave ${number(100 * cut.keptRatio, 0)} % of a potential at ${number(p.nearMm, 1)} mm` : '';
  };
  const most = Math.max(target, ...parts.flatMap((p) => p.cuts.map((q) => q.backgroundUv)));
  const cuts = parts[0].cuts;
  return figure({
    name: 'Background and filter', height: 300,
    sentence: `What fibres beyond ${number(parts[0].beyondMm, 1)} mm of a healthy sample muscle give together, by the high-pass. The target is ${number(target, 0)} µV. ${parts.map((p) => `${p.name}: ${needed(p)}${cost(p)}`).join('; ')}.`,
    twin: table('Background and filter', ['Needle', 'High-pass, Hz', 'Background, µV rms', 'Thermal noise, µV rms', `Potential at ${number(parts[0].nearMm, 1)} mm, µV`, 'Left of it, %', 'Timing error, µs'],
      parts.flatMap((p) => p.cuts.map((q) => [p.name, number(q.highPassHz, 0), number(q.backgroundUv), number(q.thermalUv), number(q.nearUv, 0), number(100 * q.keptRatio, 0), number(q.timingErrorUs, 2)])), [1, 2, 3, 4, 5, 6]),
    draw: (c, w, h, inks) => {
      const box = { left: 62, right: w - 16, top: 24, bottom: h - 44 };
      const highest = cuts.at(-1).highPassHz;
      const x = scale(0, highest, box.left, box.right); const y = scale(0, 1.1 * most, box.bottom, box.top);
      axes(c, inks, x, y, box, 'high-pass, Hz', 'µV rms', ticks(0, highest, 6), ticks(0, 1.1 * most, 6));
      c.strokeStyle = inks.ink; c.setLineDash([2, 4]); c.lineWidth = 1.5; c.beginPath(); c.moveTo(box.left, y(target)); c.lineTo(box.right, y(target)); c.stroke();
      c.setLineDash([]); c.fillStyle = inks.ink; c.textAlign = 'right'; c.textBaseline = 'bottom'; c.fillText(`target ${number(target, 0)} µV`, box.right, y(target) - 3);
      parts.forEach((p, i) => {
        c.strokeStyle = i ? inks.raise : inks.accent; c.lineWidth = 2; c.setLineDash(STROKES[i]);
        c.beginPath(); p.cuts.forEach((q) => c.lineTo(x(q.highPassHz), y(q.backgroundUv))); c.stroke(); c.setLineDash([]);
        if (p.lowestHighPassHz) { c.fillStyle = i ? inks.raise : inks.accent; c.fillRect(x(p.lowestHighPassHz) - 4, y(target) - 4, 8, 8); }
      });
      legend(c, inks, box.right - 210, box.top + 12, parts.map((p) => p.name));
    },
  });
}

/** A second fibre by size and delay: what the eye sees, with the bias of jitter over it. @param {any} d */
export function shoulders(d) {
  const { cells, distanceMm, jitterUs } = d.shouldering;
  const sizes = [...new Set(cells.map((q) => q.sizeRatio))].sort((a, b) => b - a);
  const delays = [...new Set(cells.map((q) => q.delayUs))].sort((a, b) => a - b);
  const of = (size, delay) => cells.find((q) => q.sizeRatio === size && q.delayUs === delay);
  const hidden = cells.filter((q) => q.appearance === 'hidden').map((q) => q.biasRatio);
  const row = 34;
  return figure({
    name: `A second fibre, ${d.needle}`, height: 80 + row * sizes.length,
    sentence: `${d.needle}: first fibre at ${number(distanceMm, 1)} mm, each end-plate with a jitter of ${number(jitterUs, 0)} µs. Blank cells: the second fibre is hidden; hatched: it shows as a shoulder; framed twice: as a notch. The number is the jitter measured over the true one. ${hidden.length ? `Where it is hidden, ${number(Math.min(...hidden), 2)} to ${number(Math.max(...hidden), 2)} of the true one.` : 'It is hidden nowhere.'}`,
    twin: table(`A second fibre, ${d.needle}`, ['Size over the first', 'Delay, µs', 'Seen as', 'Jitter measured over true'], cells.map((q) => [q.sizeRatio, q.delayUs, q.appearance, number(q.biasRatio, 2)]), [0, 1, 3]),
    draw: (c, w, h, inks) => {
      const left = 60; const wide = (w - left - 10) / delays.length;
      c.textBaseline = 'middle';
      sizes.forEach((size, j) => {
        const top = 28 + j * row;
        c.fillStyle = inks.soft; c.textAlign = 'right'; c.fillText(String(size), left - 8, top + row / 2);
        delays.forEach((delay, i) => {
          const q = of(size, delay); const at = left + i * wide;
          c.strokeStyle = inks.line; c.lineWidth = 1; c.strokeRect(at + 1, top + 1, wide - 2, row - 2);
          if (q.appearance === 'shoulder') {
            c.strokeStyle = inks.faint; c.lineWidth = 2; c.beginPath();
            for (let k = 8; k < wide + row; k += 8) { const x0 = Math.min(k, wide - 2); const y0 = Math.max(0, k - wide + 2); const y1 = Math.min(k, row - 2); const x1 = Math.max(0, k - row + 2); c.moveTo(at + x0, top + y0); c.lineTo(at + x1, top + y1); }
            c.stroke();
          }
          if (q.appearance === 'notch') { c.strokeStyle = inks.mark; c.lineWidth = 2; c.strokeRect(at + 4, top + 4, wide - 8, row - 8); }
          c.fillStyle = inks.ink; c.textAlign = 'center'; c.fillText(q.biasRatio < 9.95 ? number(q.biasRatio, wide > 44 ? 2 : 1) : number(q.biasRatio, 0), at + wide / 2, top + row / 2);
        });
      });
      const bottom = 28 + row * sizes.length;
      c.fillStyle = inks.soft; c.textAlign = 'center';
      delays.forEach((delay, i) => { if (wide > 36 || i % 2 === 0) c.fillText(String(delay), left + (i + 0.5) * wide, bottom + 14); });
      c.textAlign = 'right'; c.fillText('delay of the second fibre, µs', w - 10, bottom + 34);
      c.textAlign = 'left'; c.fillText('size over the first', 8, 12);
    },
  });
}

/** Fibres in a spike at random places of the sample muscle. @param {any[]} documents */
export function counts(documents) {
  const share = (d, n) => d.fibresPerPotential.find((f) => f.fibres === n)?.share ?? 0;
  return table('Fibres in a spike, at random places of a healthy sample muscle', ['Needle', 'High-pass, Hz', 'Spikes', 'One, %', 'Two, %', 'Three, %', 'Four and more, %', 'Fibre density'],
    documents.map((d) => [d.needle, number(d.highPassHz, 0), d.muscle.spikes, ...[1, 2, 3].map((n) => number(100 * share(d, n), 0)), number(100 * (share(d, 4) + share(d, 5)), 0), number(d.muscle.fibreDensityRatio, 2)]), [1, 2, 3, 4, 5, 6, 7]);
}

/** The ladder of a sample muscle: the fibres of one unit, the nearest on top. @param {Array<{needle: string, places: any[]}>} solved */
export function muscleLadder(solved) {
  const place = el('div');
  const which = choice(solved[0].places.map((p, i) => [String(i), `place ${i + 1}`]), '0', { onchange: () => draw() });
  function draw() {
    const at = solved.map((s) => ({ needle: s.needle, ...s.places[Number(which.value)] }));
    const shown = at.map((p) => ({ ...p, rungs: p.rungs.filter((r) => Math.abs(r.shareRatio) >= 0.01) }));
    const rows = Math.max(...shown.map((p) => p.rungs.length));
    const most = Math.max(...shown.flatMap((p) => p.rungs.map((r) => Math.abs(r.shareRatio))), 0.01);
    const step = 26;
    fill(place, figure({
      name: 'Ladder of a sample muscle', height: 60 + step * Math.max(1, rows),
      sentence: `Fibres of one unit of a healthy sample muscle, the needle put 0.12 mm before one of them: the nearest on top, each rung its share of the steep phase. ${shown.map((p) => `${p.needle}: spike of ${number(p.amplitudeUv, 0)} µV, the largest share ${number(100 * Math.max(0, ...p.rungs.map((r) => r.shareRatio)), 0)} %, ${p.rungs.filter((r) => r.shareRatio >= 0.1).length} with a tenth or more`).join('; ')}. A share to the left works against it; those under 1 % are not drawn.`,
      twin: table('Ladder of a sample muscle', ['Needle', 'Distance, mm', 'Size, µV', 'Share of the steep phase, %'], at.flatMap((p) => [...p.rungs.map((r) => [p.needle, number(r.distanceMm, 2), number(r.amplitudeUv), number(100 * r.shareRatio)]), [p.needle, 'all others', '', number(100 * p.restRatio)]]), [1, 2, 3]),
      draw: (c, w, h, inks) => {
        const column = (w - 20) / shown.length;
        shown.forEach((p, k) => {
          const least = Math.min(0, ...p.rungs.map((r) => r.shareRatio));
          const left = 10 + k * column + 74; const reach = column - 74 - 70;
          const zero = left + (reach * -least) / (most - least);
          c.textBaseline = 'middle'; c.fillStyle = inks.ink; c.textAlign = 'left'; c.fillText(`${p.needle}, ${number(p.highPassHz, 0)} Hz`, 10 + k * column, 14);
          c.strokeStyle = inks.line; c.lineWidth = 2; c.setLineDash([]); c.beginPath(); c.moveTo(zero, 28); c.lineTo(zero, h - 8); c.stroke();
          p.rungs.forEach((r, i) => {
            const y = 42 + i * step; const long = (r.shareRatio / (most - least)) * reach;
            c.fillStyle = k === 0 ? inks.accent : inks.sheet; c.strokeStyle = r.shareRatio < 0 ? inks.raise : inks.accent; c.lineWidth = 1.5;
            c.fillRect(long < 0 ? zero + long : zero, y - 8, Math.max(1, Math.abs(long)), 16); c.strokeRect(long < 0 ? zero + long : zero, y - 8, Math.max(1, Math.abs(long)), 16);
            c.fillStyle = inks.ink; c.textAlign = 'left'; c.fillText(`${number(100 * r.shareRatio, 0)} %`, Math.max(zero, zero + long) + 6, y);
            c.fillStyle = inks.soft; c.textAlign = 'right'; c.fillText(`${number(r.distanceMm, 2)} mm`, 10 + k * column + 66, y);
          });
        });
      },
    }));
  }
  draw();
  return el('div', {}, el('div', { class: 'row end' }, field('Place in the muscle', which)), place);
}
