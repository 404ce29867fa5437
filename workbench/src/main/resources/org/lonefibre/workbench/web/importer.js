// Import: files dropped or chosen, a preview of what was read, then the analysis with progress and cancel.
import { el, fill, field, choice, say, number } from './dom.js';
import { post, send } from './api.js';
import { session } from './app.js';
import { progress } from './studies.js';

const NEEDLES = [['', 'not given'], ['single-fibre', 'single-fibre'], ['concentric-small', 'concentric, small'], ['concentric-standard', 'concentric, standard'], ['monopolar', 'monopolar']];

/** @param {string} id @param {any} view @param {(ended: boolean) => void} done */
export function importer(id, view, done) {
  /** @type {any[]} */
  const files = [];
  const list = el('div');
  const work = el('div');
  const chooser = el('input', { type: 'file', multiple: true, 'aria-label': 'Choose recordings', onchange: (e) => add([...e.target.files]) });
  const muscle = choice([['', 'not given'], ...session.muscles.map((m) => [m, m])], '');
  const side = choice([['', 'not given'], ['left', 'left'], ['right', 'right']], '');
  const needle = choice(NEEDLES, '');
  const activation = choice([['', 'not given'], ['voluntary', 'voluntary'], ['stimulated', 'stimulated']], '');
  const drop = el('div', { class: 'drop',
    ondragover: (e) => { e.preventDefault(); drop.classList.add('over'); },
    ondragleave: () => drop.classList.remove('over'),
    ondrop: async (e) => { e.preventDefault(); drop.classList.remove('over'); add(await dropped(e.dataTransfer)); } },
  el('p', {}, 'Drop recordings or a folder here, one file a site, or choose them:'), chooser);

  async function add(chosen) {
    for (const file of chosen) {
      say(`Reading ${file.name} …`);
      try {
        const preview = await send(file);
        if (files.some((f) => f.preview.sha256 === preview.sha256)) { say(`${file.name} is the same file as one above.`); continue; }
        files.push({ preview, site: '', from: '', to: '', channel: preview.signals.length > 1 ? '' : null });
      } catch (fault) { say(`${file.name}: ${fault.message}`, 'alert'); }
    }
    draw();
    say(`${files.length} ${files.length === 1 ? 'file is' : 'files are'} ready to be imported.`);
  }

  function draw() {
    if (files.length === 0) { fill(list); return; }
    const ready = files.filter((f) => !f.preview.refusal);
    fill(list,
      el('div', { class: 'scroll', tabindex: 0, role: 'region', 'aria-label': 'What was read' }, el('table', {}, el('caption', {}, 'What was read'),
        el('thead', {}, el('tr', {}, ['File', 'Read as', 'Signal', 'Site name', 'From, s', 'To, s', 'Noticed', ''].map((h) => el('th', { scope: 'col' }, h || el('span', {}, 'Leave out'))))),
        el('tbody', {}, files.map((f) => el('tr', {},
          el('th', { scope: 'row' }, f.preview.fileName),
          el('td', {}, f.preview.refusal ? el('span', { class: 'word raise' }, 'not read') : f.preview.format),
          el('td', {}, f.preview.signals.length > 1
            ? choice([['', 'choose the signal'], ...f.preview.signals.map((s) => [String(s.number), words(s)])], f.channel ?? '', { 'aria-label': `Signal of ${f.preview.fileName}`, onchange: (e) => { f.channel = e.target.value; } })
            : f.preview.signals.map(words)),
          el('td', {}, f.preview.refusal ? '' : el('input', { value: f.site, placeholder: 'from the file', maxlength: 80, 'aria-label': `Site name of ${f.preview.fileName}`, onchange: (e) => { f.site = e.target.value; } })),
          cut(f, 'from', 'From'), cut(f, 'to', 'To'),
          el('td', {}, f.preview.refusal ?? [...f.preview.findings.map((x) => x.text), ...(f.preview.studies.length ? [`Already in: ${f.preview.studies.join(', ')}.`] : [])].join(' ')),
          el('td', {}, el('button', { 'aria-label': `Leave out ${f.preview.fileName}`, onclick: () => { files.splice(files.indexOf(f), 1); draw(); } }, 'Leave out'), ' ',
            f.preview.refusal ? null : el('button', { 'aria-label': `Another site of ${f.preview.fileName}`, onclick: () => { files.splice(files.indexOf(f) + 1, 0, { ...f, site: '', from: f.to, to: '' }); draw(); } }, 'Another site'))))))),
      el('div', { class: 'grid' }, field('Muscle', muscle), field('Side', side), field('Needle', needle), field('Activation', activation)),
      el('div', { class: 'row' }, el('button', { class: 'main', disabled: ready.length === 0, onclick: () => begin(ready) }, `Import and measure ${ready.length} ${ready.length === 1 ? 'recording' : 'recordings'}`)));
  }
  const cut = (f, name, label) => el('td', {}, f.preview.refusal ? '' : el('input', { type: 'number', min: 0, max: Math.max(...f.preview.signals.map((s) => s.durationS), 0), step: 'any', size: 7, value: f[name], placeholder: name === 'from' ? 'start' : 'end', 'aria-label': `${label} which second of ${f.preview.fileName}`, onchange: (e) => { f[name] = e.target.value; } }));
  const seconds = (text) => (text === '' ? null : Number(text));
  const named = (f) => f.site || (f.from === '' && f.to === '' ? null : `${f.preview.fileName.replace(/\.[^.]*$/, '')} ${f.from || 'start'}-${f.to || 'end'} s`);
  const words = (s) => `${s.label || 'without label'}, ${number(s.samplingRateHz, 0)} Hz, ${s.unit || 'no unit'}, ${number(s.durationS)} s`;

  async function begin(ready) {
    const unnamed = ready.find((f) => f.channel === '');
    if (unnamed) { say(`Choose the signal of ${unnamed.preview.fileName}.`, 'alert'); return; }
    const wrong = ready.find((f) => (f.from !== '' || f.to !== '') && !((seconds(f.to) ?? Infinity) > (seconds(f.from) ?? 0) && (seconds(f.from) ?? 0) >= 0 && (seconds(f.from) ?? 0) < Math.max(...f.preview.signals.map((s) => s.durationS))));
    if (wrong) { say(`${wrong.preview.fileName}: a site must end after it begins, and begin within the recording.`, 'alert'); return; }
    const job = await post(`/api/studies/${id}/imports`, {
      muscle: muscle.value || null, side: side.value || null, needle: needle.value || null, activation: activation.value || null, limits: null,
      sources: ready.map((f) => ({ sha256: f.preview.sha256, fileName: f.preview.fileName, site: named(f), channel: f.channel || null, stimulusChannel: null, startS: seconds(f.from), endS: seconds(f.to) })) });
    const ended = await progress(work, job.id);
    done(ended.state === 'done');
  }
  return el('section', {}, el('h2', {}, view.parts.length ? 'Add recordings' : 'Recordings'), drop, list, work);
}

/** Files of a drop, those in folders too. @param {DataTransfer} transfer @returns {Promise<File[]>} */
async function dropped(transfer) {
  const entries = [...transfer.items].map((i) => i.webkitGetAsEntry?.()).filter(Boolean);
  if (entries.length === 0) return [...transfer.files];
  const found = [];
  async function walk(entry) {
    if (entry.isFile) found.push(await new Promise((good, bad) => entry.file(good, bad)));
    else {
      const reader = entry.createReader();
      for (;;) {
        const some = await new Promise((good, bad) => reader.readEntries(good, bad));
        if (some.length === 0) break;
        for (const one of some) await walk(one);
      }
    }
  }
  for (const entry of entries) await walk(entry);
  return found;
}
