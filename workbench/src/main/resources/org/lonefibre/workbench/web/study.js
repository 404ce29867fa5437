// Study: circumstances, signals against the limits, what is missing, the physician's words, signature, exports.
import { units, besideLimit, identity, el, fill, field, choice, table, number, say, ask } from './dom.js';
import { get, getBytes, post, person } from './api.js';
import { keys, session } from './app.js';
import { figure, scale, ticks, mark } from './plots.js';
import { findings, words } from './site.js';
import { importer } from './importer.js';
import { compareSets } from './limits.js';
import { course, density } from './course.js';
import { blindPage, readings } from './reading.js';
import { sideBySide } from './sites.js';

const VOLUNTEER = ['healthy-volunteer', 'Healthy volunteer: what the program accepts counts for the limits of this laboratory'];
const CHECKS = [
  ['check-contraindications', 'Contraindications of needle examination were asked for'],
  ['check-anticoagulation', 'Anticoagulation and bleeding were asked for'],
  ['check-infection', 'No infection where the needle goes in'],
  ['check-medication', 'Medication that acts on the end-plate was asked for'],
  ['check-botulinum', 'Botulinum toxin, also of years ago, was asked for'],
  ['check-temperature', 'Skin temperature was measured'],
  ['check-needle', 'Needle and its tip were looked at'],
];
const EXPORTS = [['report.pdf', 'Report as PDF'], ['report.html', 'Report as HTML'], ['analysis.json', 'Analysis as JSON'], ['signals.csv', 'Signals as CSV'], ['intervals.csv', 'Intervals as CSV'], ['report.fhir-r4.json', 'FHIR release 4'], ['report.fhir-r5.json', 'FHIR release 5'], ['report.dcm', 'Report as DICOM'], ['signed.json', 'Signed text as JSON']];

/** @param {HTMLElement} main @param {string} id */
export async function study(main, id) {
  let view = await get(`/api/studies/${id}`);
  const place = el('div');
  const saved = el('p', { class: 'soft', role: 'status' });

  function draw() {
    const d = view.declaration;
    identity(`${view.study.title}, subject ${d.subjectCode ?? 'without code'}`);
    fill(place,
      el('h1', {}, view.study.title),
      el('div', { class: 'row' },
        view.study.provenance === 'demo' ? el('span', { class: 'demo' }, 'DEMO, invented data') : null,
        el('span', { class: `word ${view.study.state === 'signed' ? 'ok' : view.study.state === 'amended' ? 'mark' : ''}` }, stateWords(view)),
        el('span', { class: 'soft' }, `subject ${d.subjectCode ?? 'without code'}, ${d.ageYears === null ? 'age not given' : `${d.ageYears} years`}`),
        el('a', { href: `#/changes/${id}` }, 'Record of changes')),
      view.reading?.state === 'blind' ? blindPage(id, view, reload) : whole(d));
  }
  function whole(d) {
    return [view.parts.map((p, i) => [part(p, d.parts[i], i), sideBySide(id, i)]),
      view.parts.length === 0 ? [el('p', { class: 'lead' }, 'This study has no recordings yet. Ask what has to be asked before, then add the recordings, one file a site.'), before()] : null,
      importer(id, view, (ended) => { if (ended) reload(); }),
      view.parts.length === 0 ? null : before(), facts(d), texts(), overrides(), readings(id, view), course(id, view), sign(), exports()];
  }
  async function reload() { view = await get(`/api/studies/${id}`); draw(); }

  function part(p, declared, i) {
    const s = p.summary;
    const auto = p.automaticSummary;
    const limits = s.limits;
    const where = `${declared.muscle ?? 'muscle not given'}, ${declared.side ?? 'side not given'}, ${declared.needle ?? 'needle not given'} needle, ${declared.activation ?? 'voluntary (assumed)'}`;
    const big = (value, unit, label) => el('div', { class: 'number' }, el('div', { class: 'value' }, value, unit ? el('span', { class: 'unit' }, ` ${unit}`) : ''), el('div', { class: 'label' }, label));
    const total = 20;
    return el('section', {}, el('h2', {}, where[0].toUpperCase() + where.slice(1)),
      el('div', { class: 'numbers' },
        big(String(s.signals), '', `signals in the statistics, of ${total} usual${s.signals < total ? `; ${total - s.signals} are missing` : ''}`),
        big(limits && limits.centreStatistic === 'mean' ? besideLimit(s.meanJitterUs, limits.centreUs) : number(s.meanJitterUs), 'µs', limits && limits.centreStatistic === 'mean' ? `mean jitter; limit ${limits.centreUs} µs` : 'mean jitter'),
        big(number(s.medianJitterUs), 'µs', limits && limits.centreStatistic === 'median' ? `median jitter; limit ${limits.centreUs} µs` : 'median jitter'),
        big(s.signalsAboveLimit === null ? '–' : String(s.signalsAboveLimit), '', limits ? `above the limit ${limits.individualUs} µs of a single signal` : 'nothing was compared'),
        big(String(s.signalsWithBlocking), '', 'with blocking')),
      el('p', { class: 'lead' }, limits ? `Compared with set ${limits.set}: ${words(s.verdictByFullGrade)}.` : 'Compared with nothing: no limit set fits what is declared.',
        s.verdictByFullGrade !== auto.verdictByFullGrade ? el('span', { class: 'word mark' }, `automatic: ${words(auto.verdictByFullGrade)}; ${view.steps.some((x) => x.state === 'active') ? 'decisions of a person turned it' : 'facts or limits in use have changed since'}`) : ''),
      s.criteria.length ? el('ul', { class: 'findings' }, s.criteria.map((c) => el('li', {}, el('span', { class: `word ${c.met ? 'raise' : ''}` }, c.met ? 'met' : 'not met'), ` ${units(c.text)}`))) : null,
      stripPlot(p, limits, i), progress(s), alternatives(s), compareSets(id, i), density(id, i, declared), sitesTable(p, i), findings(s.findings));
  }

  function progress(s) {
    if (!s.progress || s.progress.signals >= s.progress.usualSignals) return null;
    return el('section', {}, el('h3', {}, `So far, ${s.progress.signals} of ${s.progress.usualSignals} usual signals`),
      el('ul', { class: 'findings' }, s.progress.facts.map((f) => el('li', {}, units(f.text)))));
  }

  function alternatives(s) {
    if (!s.alternatives?.length) return null;
    return table('Counted otherwise, beside the result', ['Otherwise', 'Signals', 'Mean, µs', 'Median, µs', 'Above or blocking', 'Finds'],
      s.alternatives.map((a) => [a.text, a.signals, number(a.meanJitterUs), number(a.medianJitterUs), a.signalsAboveLimitOrBlocking ?? '–', words(a.verdict)]), [1, 2, 3, 4]);
  }

  function stripPlot(p, limits, i) {
    const signals = p.sites.flatMap((site, number_) => site.signals.map((s) => ({ ...s, site: site.site, number: number_ })));
    const drawn = signals.filter((s) => s.jitterUs !== null);
    if (drawn.length === 0) return null;
    const high = Math.max(...drawn.map((s) => Math.min(s.correctedJitterHighUs ?? s.jitterUs, 3 * s.jitterUs)), limits?.individualUs ?? 0) * 1.06;
    const box = (w, h) => ({ left: 54, right: w - 12, top: 20, bottom: h - 30 });
    const xs = (w, h) => { const b = box(w, h); return scale(-0.5, drawn.length - 0.5, b.left, b.right - 110); };
    return figure({
      name: 'Jitter of each signal', height: 280,
      sentence: `${drawn.length} signals, each a mark with its 95 % interval${limits ? `; lines at the limit ${limits.individualUs} µs of a single signal (dashes) and the ${limits.centreStatistic} limit ${limits.centreUs} µs (dots)` : ''}. Filled marks count, rings are left out. A click, or Enter in the table, opens the site.`,
      twin: () => table('Jitter of each signal', ['Site', 'Signal', 'Jitter, µs', 'Interval of 95 %, µs', 'Counts', 'Single limit', 'Blocking'], drawn.map((s) => [s.site, s.id, number(s.jitterUs),
        s.correctedJitterHighUs === null ? 'not known' : `${number(s.correctedJitterLowUs)} to ${number(s.correctedJitterHighUs)}`, s.status === 'measured' ? 'yes' : 'left out',
        !limits ? 'nothing was compared' : s.jitterUs > limits.individualUs ? `above ${limits.individualUs} µs` : `not above ${limits.individualUs} µs`, s.blockedSweeps > 0 ? 'yes' : 'none']), [2, 3]),
      point: (px, py, w, h) => { const at = Math.round(xs(w, h).back(px)); if (drawn[at]) location.hash = `#/study/${id}/${i}/${drawn[at].number}`; },
      draw: (c, w, h, inks) => {
        const b = box(w, h); const x = xs(w, h); const y = scale(0, high, b.bottom, b.top);
        c.strokeStyle = inks.line; c.beginPath(); c.moveTo(b.left, b.top); c.lineTo(b.left, b.bottom); c.lineTo(b.right, b.bottom); c.stroke();
        c.fillStyle = inks.soft; c.textAlign = 'right'; c.textBaseline = 'middle';
        for (const t of ticks(0, high, 5)) { c.fillText(String(t), b.left - 8, y(t)); c.fillRect(b.left - 5, y(t), 5, 1); }
        c.textAlign = 'left'; c.textBaseline = 'top'; c.fillText('jitter, µs', 6, 2);
        for (const [value, dash, name] of limits ? [[limits.individualUs, [9, 5], 'single'], [limits.centreUs, [2, 4], limits.centreStatistic]] : []) {
          if (value === null) continue;
          c.strokeStyle = inks.raise; c.lineWidth = 1.5; c.setLineDash(dash); c.beginPath(); c.moveTo(b.left, y(value)); c.lineTo(b.right, y(value)); c.stroke(); c.setLineDash([]);
          c.fillStyle = inks.raise; c.textAlign = 'right'; c.textBaseline = 'bottom'; const label = `${name} ${value} µs`; c.fillStyle = inks.sheet; c.fillRect(b.right - c.measureText(label).width - 6, y(value) - 18, c.measureText(label).width + 8, 16); c.fillStyle = inks.raise; c.fillText(label, b.right, y(value) - 2);
        }
        drawn.forEach((s, k) => {
          const above = limits?.individualUs && s.jitterUs > limits.individualUs;
          c.strokeStyle = c.fillStyle = s.status !== 'measured' ? inks.soft : above || s.blockedSweeps > 0 ? inks.raise : inks.accent;
          c.lineWidth = 1.5;
          if (s.correctedJitterHighUs !== null) { c.beginPath(); c.moveTo(x(k), y(s.correctedJitterLowUs)); c.lineTo(x(k), y(Math.min(high, s.correctedJitterHighUs))); c.stroke(); }
          mark(c, s.status !== 'measured' ? 'ring' : above ? 'triangle' : 'dot', x(k), y(s.jitterUs), 4);
          if (s.blockedSweeps > 0) { c.fillStyle = inks.raise; c.textAlign = 'center'; c.textBaseline = 'top'; c.fillText('B', x(k), b.bottom + 4); }
          if (s.changed) { c.fillStyle = inks.mark; c.fillRect(x(k) - 5, b.bottom + 20, 10, 3); }
        });
        c.fillStyle = inks.soft; c.textAlign = 'left'; c.textBaseline = 'bottom'; c.fillText('B: with blocking', b.left + 70, 16);
      },
    });
  }

  function sitesTable(p, i) {
    const rows = p.sites.flatMap((site, n) => {
      const link = el('a', { href: `#/study/${id}/${i}/${n}` }, site.site);
      return site.signals.length === 0 ? [[link, 'none found', '', '', '', '', '']] : site.signals.map((s, k) => [
        k === 0 ? link : el('span', {}, site.site), s.id,
        el('span', {}, number(s.jitterUs), s.changed ? [' ', el('span', { class: 'word mark' }, `changed, automatic ${number(s.automaticJitterUs)}`)] : ''),
        s.correctedJitterUs === null ? '' : `${number(s.correctedJitterUs)} (${number(s.correctedJitterLowUs)} to ${number(s.correctedJitterHighUs)})`,
        s.blockedSweeps ? `${s.blockedSweeps} of ${s.presentSweeps + s.blockedSweeps}` : 'none', s.presentSweeps,
        el('span', { class: `word ${s.status === 'measured' ? '' : 'mark'}` }, s.status)]);
    });
    return table('Sites and their signals', ['Site', 'Signal', 'Jitter, µs', 'Corrected (95 %), µs', 'Blocked', 'Present', 'Status'], rows, [2, 3, 4, 5]);
  }

  async function note(name, text) {
    await post(`/api/studies/${id}/notes`, { field: name, text });
    const fresh = await get(`/api/studies/${id}`);
    view.study = fresh.study; view.notes = fresh.notes;
    saved.textContent = `Saved at ${new Date().toLocaleTimeString('en-GB')}.`;
    return fresh;
  }

  function before() {
    return el('section', {}, el('h2', {}, 'Before the examination'),
      [...CHECKS, VOLUNTEER].map(([name, text]) => {
        const box = el('input', { type: 'checkbox', id: name, checked: view.notes[name] === 'yes', onchange: (e) => note(name, e.target.checked ? 'yes' : '') });
        return el('div', { class: 'check' }, box, el('label', { for: name }, text));
      }),
      el('div', { class: 'grid' },
        typed('medication-last-dose', 'Medication with time of the last dose'), typed('botulinum-last', 'Botulinum toxin: where and when'), typed('needle-condition', 'Needle: number of uses, condition')));
  }
  const typed = (name, label) => field(label, el('input', { value: view.notes[name] ?? '', maxlength: 500, onchange: (e) => note(name, e.target.value) }));

  function facts(d) {
    const code = el('input', { value: d.subjectCode ?? '', maxlength: 40 });
    const age = el('input', { type: 'number', min: 0, max: 130, value: d.ageYears ?? '' });
    const date = el('input', { type: 'date', value: d.visit.date ?? '' });
    const examiner = el('input', { value: d.visit.examiner ?? '', maxlength: 120 });
    const temperature = el('input', { type: 'number', step: 0.1, min: 10, max: 45, value: d.visit.temperatureDegC ?? '' });
    const medication = el('input', { value: d.visit.medication ?? '', maxlength: 300 });
    const parts = d.parts.map((p) => ({ p, muscle: choice([['', 'not given'], ...session.muscles.map((m) => [m, m])], p.muscle ?? ''), side: choice([['', 'not given'], ['left', 'left'], ['right', 'right']], p.side ?? ''), limits: choice([['', 'the one that fits'], ...session.limitSets.map((s) => [s, s])], p.limits ?? '') }));
    return el('section', {}, el('h2', {}, 'Facts'),
      el('div', { class: 'grid' }, field('Subject code, never a name', code), field('Age in years', age), field('Date of the visit', date), field('Examiner', examiner), field('Skin temperature, °C', temperature), field('Medication', medication)),
      parts.map((x) => el('div', { class: 'grid' }, field('Muscle', x.muscle), field('Side', x.side), field('Limit set', x.limits),
        el('p', { class: 'soft' }, `${x.p.needle ?? 'needle not given'}, ${x.p.activation ?? 'activation not given'}: part of the measurement.`))),
      el('div', { class: 'row' }, el('button', { onclick: async () => {
        view = await post(`/api/studies/${id}/declaration`, {
          subjectCode: code.value || null, ageYears: age.value ? Number(age.value) : null,
          visit: { date: date.value || null, examiner: examiner.value || null, temperatureDegC: temperature.value ? Number(temperature.value) : null, medication: medication.value || null, note: d.visit.note },
          parts: parts.map((x) => ({ ...x.p, muscle: x.muscle.value || null, side: x.side.value || null, limits: x.limits.value || null })) });
        draw();
        say('Facts saved; the study was compared again.');
      } }, 'Save facts')));
  }

  function texts() {
    const area = (name, label) => {
      let timer = 0;
      return field(label, el('textarea', { id: name, value: view.notes[name] ?? '', maxlength: 20000, oninput: (e) => { clearTimeout(timer); saved.textContent = 'Not saved yet …'; timer = setTimeout(() => note(name, e.target.value), 600); } }));
    };
    return el('section', {}, el('h2', {}, 'Comment and conclusion'),
      el('p', { class: 'soft' }, 'Written by the physician; saved while it is typed. The program concludes nothing.'),
      area('comment', 'Comment'), area('conclusion', 'Conclusion'), saved);
  }

  function overrides() {
    const active = view.steps.filter((s) => s.state === 'active');
    const turned = active.length === 0 ? 0 : view.parts.filter((p) => p.summary.verdictByFullGrade !== p.automaticSummary.verdictByFullGrade).length;
    return el('section', {}, el('h2', {}, 'Decisions of a person'),
      el('p', {}, `${active.length} ${active.length === 1 ? 'decision is' : 'decisions are'} in force; ${turned === 0 ? 'they turn no comparison' : `they turn ${turned} of ${view.parts.length} comparisons`}.`),
      view.steps.length ? table('Steps', ['Step', 'Site', 'Why', 'Who', 'State'], view.steps.map((s) => [s.stepName, siteName(s.site), s.reason, s.actor, el('span', { class: `word ${s.state === 'active' ? '' : 'mark'}` }, s.state)])) : null,
      el('div', { class: 'row' }, active.length ? el('button', { onclick: effects }, 'Which decision turns a comparison?') : null,
        el('button', { onclick: () => move('undo') }, 'Undo last step'), el('button', { onclick: () => move('redo') }, 'Redo')),
      turning);
  }
  const turning = el('div');
  /** A sentence on each decision: what the comparison were without it, and with it alone. */
  async function effects() {
    const all = await get(`/api/studies/${id}/effects`);
    const turns = all.filter((e) => e.without !== null && e.without !== e.now);
    const sentence = (e) => {
      if (e.without === null) return 'Not judged: without it another measurement would be needed.';
      const mean = e.meanJitterUs === null || e.meanJitterWithoutUs === null ? '' : ` (mean jitter ${number(e.meanJitterWithoutUs)} in place of ${number(e.meanJitterUs)} µs)`;
      if (e.without !== e.now) return `This one turns the comparison: without it ${words(e.without)}, with it ${words(e.now)}${mean}.`;
      const part = view.parts[Number(view.steps.find((s) => s.sequence === e.sequence).site.split('/')[0])];
      const automatic = part.automaticSummary.verdictByFullGrade;
      if (e.alone !== null && e.alone !== automatic) return `Alone it would turn the comparison from ${words(automatic)} to ${words(e.alone)}; beside the others it makes no difference${mean}.`;
      return `It turns nothing${mean}.`;
    };
    const together = turns.length === 0 && view.parts.some((p) => p.summary.verdictByFullGrade !== p.automaticSummary.verdictByFullGrade);
    fill(turning, el('p', { role: 'status' }, `${turns.length} of ${all.length} decisions in force ${turns.length === 1 ? 'turns' : 'turn'} a comparison${together ? '; they turn one together, none by itself' : ''}.`),
      el('ul', { class: 'findings' }, all.map((e) => {
        const step = view.steps.find((s) => s.sequence === e.sequence);
        return el('li', {}, el('strong', {}, `${step.stepName}, ${siteName(step.site)}: `), e.without !== null && e.without !== e.now ? el('span', { class: 'word mark' }, 'turns it') : '', ` ${sentence(e)}`);
      })));
  }
  function siteName(key) { const [p, s] = key.split('/').map(Number); return view.parts[p]?.sites[s]?.site ?? key; }
  async function move(direction) {
    view = await post(`/api/studies/${id}/${direction}`, {});
    fill(turning);
    draw();
    say(view.moved ? `${direction === 'undo' ? 'Undone' : 'Redone'}: ${view.moved}` : `There is nothing to ${direction}.`);
  }
  for (const [key, text, run] of [['u', 'undo the last step', () => move('undo')], ['Ctrl+z', 'undo the last step', () => move('undo')], ['Ctrl+Shift+z', 'redo', () => move('redo')]]) keys.set(key, { words: text, run });

  function sign() {
    return el('section', {}, el('h2', {}, 'Signature'),
      view.versions.length ? table('Signed versions', ['Version', 'Signed by', 'When (UTC)', 'Meaning', 'SHA-256'], view.versions.map((v) => [v.version, v.signer, v.signedAt.replace('T', ' ').slice(0, 19), v.meaning, v.sha256.slice(0, 16)])) : el('p', {}, 'The study is not signed.'),
      el('p', { class: 'soft' }, 'Signing freezes the study as it stands and seals it. It is an integrity seal of this installation, not a qualified electronic signature.'),
      view.parts.length === 0 ? null : el('button', { class: 'main', disabled: view.study.state === 'signed', onclick: async () => {
        const meaning = el('input', { value: 'reviewed and approved', maxlength: 200, size: 36 });
        const answer = await ask(`Sign as ${person() || '(say who you are first)'}?`, el('div', {}, field('Meaning of the signature', meaning)), () => (meaning.value.trim() ? { meaning: meaning.value.trim() } : 'Say what the signature means.'), 'Sign');
        if (answer) { view = await post(`/api/studies/${id}/signatures`, { revision: view.study.revision, meaning: answer.meaning }); draw(); say('Signed and sealed.'); }
      } }, view.study.state === 'signed' ? 'Signed' : 'Sign …'));
  }

  function exports() {
    const recording = choice(view.files.map((f) => [String(f.position), f.fileName]), String(view.files[0]?.position ?? ''));
    return el('section', {}, el('h2', {}, 'Exports'), view.parts.length === 0 ? el('p', {}, 'There is nothing to export before the first result.') :
      el('div', { class: 'row' }, EXPORTS.filter(([name]) => name !== 'signed.json' || view.versions.length).map(([name, text]) => el('button', { onclick: async () => {
        say(`Making ${name} …`);
        const blob = await (await getBytes(`/api/studies/${id}/exports/${name}`)).blob();
        const url = URL.createObjectURL(blob);
        const link = el('a', { href: url, download: `${view.declaration.subjectCode ?? 'study'}-${name}` });
        document.body.append(link); link.click(); link.remove();
        setTimeout(() => URL.revokeObjectURL(url), 10000);
        say(`${name} is ready.`);
      } }, text))),
      view.files.length === 0 ? null : el('div', { class: 'row end' }, field('Recording', recording), el('button', { onclick: () => anonymous(recording.value) }, 'Anonymised copy …')),
      view.parts.length === 0 || !session.archive ? null : el('div', { class: 'row end' }, field('Accession number, if there is an order', accession), el('button', { onclick: leave }, `Send to ${session.archive} …`)));
  }
  const accession = el('input', { maxlength: 16 });
  /** Shows what would leave this computer, and sends exactly that when a person agrees. */
  async function leave() {
    const order = { accessionNumber: accession.value.trim() };
    const seen = await post(`/api/studies/${id}/leaving`, order);
    const wanted = await ask('Send the report?', el('div', {},
      el('p', {}, 'This would leave this computer, and the whole report with its figures, names of files and decisions.'),
      table('What would leave', ['What', 'As it stands'], seen.lines.map((l) => [l.name, l.value ?? '(not there)']))), () => true, 'Send');
    if (!wanted) return;
    say('Sending …');
    await post(`/api/studies/${id}/sendings`, { ...order, instanceUid: seen.instanceUid });
    say('Sent: the archive says that it has the report. It stands in the record of changes.');
  }

  /** Shows each field of the header before and after, then hands the copy over. */
  async function anonymous(position) {
    const shift = -(1000 + (crypto.getRandomValues(new Uint32Array(1))[0] % 9000));
    const path = `/api/studies/${id}/recordings/${position}/anonymous`;
    const seen = await get(`${path}?shiftDays=${shift}`);
    const after = new Map(seen.after.map((f) => [`${f.signal} ${f.name}`, f]));
    const rows = seen.before.map((f) => {
      const now = after.get(`${f.signal} ${f.name}`);
      after.delete(`${f.signal} ${f.name}`);
      const text = now?.text ?? '(not there)';
      return [`${f.name}${f.signal ? ` of signal ${f.signal}` : ''}`, `${f.from} to ${f.to}`, f.text, text, f.text === text ? 'the same' : 'changed'];
    });
    for (const f of after.values()) rows.push([`${f.name}${f.signal ? ` of signal ${f.signal}` : ''}`, `${f.from} to ${f.to}`, '(not there)', f.text, 'changed']);
    const wanted = await ask('Anonymised copy', el('div', {},
      el('p', {}, `${seen.format}, ${seen.samples} samples, ${seen.differing} of them differ; ${seen.droppedAnnotations} annotations left out; the date moved by a number drawn by lot.`),
      table('The header before and after', ['Field', 'Bytes', 'Before', 'After', 'Compared'], rows)), () => true, 'Save the copy');
    if (wanted) {
      const url = URL.createObjectURL(await (await getBytes(`${path}/file?shiftDays=${shift}`)).blob());
      const link = el('a', { href: url, download: 'anonymous.edf' });
      document.body.append(link); link.click(); link.remove();
      setTimeout(() => URL.revokeObjectURL(url), 10000);
    }
  }

  fill(main, place);
  draw();
}

function stateWords(view) {
  if (view.study.state === 'signed') return `signed, version ${view.versions.length}`;
  if (view.study.state === 'amended') return `amended after signed version ${view.versions.length}`;
  return 'not signed';
}
