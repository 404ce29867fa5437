// Site: one recording as an argument: claim, evidence, number.
import { el, fill, field, choice, table, number, probability, ask, say, identity, units as signs } from './dom.js';
import { get, post } from './api.js';
import { keys } from './app.js';
import { ruler } from './ruler.js';
import { measuring } from './measuring.js';
import { progress } from './studies.js';
import { potentialFigure, evidence, EVIDENCE } from './evidence.js';

const REASONS = ['movement of the needle', 'another unit lies on it', 'noise or artefact', 'not the same potential', 'the rising phase is not that of one fibre', 'seen differently on review'];
const GRADES = [['single-fibre', 'single fibre'], ['doubtful', 'doubtful'], ['composite', 'composite'], ['ungraded', 'ungraded']];
/** @param {string} grade */
export const gradeWords = (grade) => (GRADES.find(([g]) => g === grade) ?? [grade, grade])[1];

/** @param {HTMLElement} main @param {string} id @param {string} partNumber @param {string} siteNumber */
export async function site(main, id, partNumber, siteNumber) {
  const path = `/api/studies/${id}/parts/${partNumber}/sites/${siteNumber}`;
  let view = await get(path);
  let compare = false;
  const place = el('div');
  const after = el('div');
  const work = el('div');
  const state = {
    unit: 0, signal: null, sweep: null, kind: 'superimposed',
    units: () => view.site.motorUnits ?? (view.site.stimulation ? [{ id: 'stimuli', potentials: view.site.stimulation.potentials, pairs: view.site.stimulation.endPlates, drawing: view.site.stimulation.drawing, findings: [] }] : []),
    current: () => state.units()[state.unit] ?? null,
    pair: () => state.current()?.pairs.find((p) => p.id === state.signal) ?? state.current()?.pairs[0] ?? null,
    sweeps: () => (state.pair() ? sweepsOf(state.pair()) : []),
    select: (sweep) => {
      state.sweep = sweep;
      const one = state.sweeps().find((s) => s.sweep === sweep);
      if (one) { strip.bring(one.timeS); say(`Sweep ${sweep}: ${one.state}${one.valueUs === null ? '' : `, ${one.valueUs.toFixed(1)} µs`}`); }
      const unit = state.current();
      if (unit) state.drawing(unit);
      redraw();
    },
    excludeStretch: (from, to) => decideWithReason(`Exclude ${from.toFixed(3)} to ${to.toFixed(3)} s`, { kind: 'stretch', startS: from, endS: to, standing: 'excluded' }),
  };
  const strip = ruler(path, view, state);
  /** Pictures of sweeps by unit, on the trigger in force. @type {Map<string, any>} */
  const pictures = new Map();
  state.drawing = (unit) => {
    const key = `${unit.id} ${unit.pairs[0]?.triggerPotential ?? ''}`;
    if (!pictures.has(key)) {
      pictures.set(key, unit.drawing);
      get(`${path}/sweeps?unit=${encodeURIComponent(unit.id)}&sweep=0&most=100`).then((more) => { if (more.sweeps.length) { pictures.set(key, more); draw(); } }).catch(() => { /* the kept pictures stay */ });
    }
    const drawing = pictures.get(key);
    if (drawing && state.sweep && !drawing.sweeps.includes(state.sweep)) {
      const wanted = state.sweep;
      get(`${path}/sweeps?unit=${encodeURIComponent(unit.id)}&sweep=${wanted}&most=1`).then((one) => {
        if (!one.sweeps.length || drawing.sweeps.includes(wanted)) return;
        drawing.sweeps.push(wanted); drawing.valuesUv.push(one.valuesUv[0]);
        if (state.sweep === wanted && (state.kind === 'superimposed' || state.kind === 'ordered')) draw();
      }).catch(() => { /* the sweep lies at the edge of the recording */ });
    }
    return drawing;
  };

  function redraw() {
    strip.redraw();
    place.querySelectorAll('figure').forEach((f) => f.redraw?.());
    const field = place.querySelector('#sweep');
    if (field && state.sweep) field.value = state.sweep;
  }

  async function decide(stepName, decision) {
    const before = state.pair();
    const verdict = view.summary.verdictByFullGrade;
    view = await post(`${path}/decisions`, { stepName, decision });
    showChange(stepName, before, verdict);
    draw();
  }

  function showChange(stepName, before, verdict) {
    const now = state.current()?.pairs.find((p) => p.id === before?.id) ?? state.pair();
    const line = before && now
      ? `${now.id}: jitter ${number(before.jitterUs)} → ${number(now.jitterUs)} µs; ${before.presentSweeps} → ${now.presentSweeps} sweeps present, ${before.blockedSweeps} → ${now.blockedSweeps} blocked; ${before.status} → ${now.status}.`
      : 'No signal is left to compare.';
    const end = view.isBlind ? '' : verdict === view.summary.verdictByFullGrade ? 'The comparison of the study is unchanged.' : `The comparison of the study changes: ${words(verdict)} → ${words(view.summary.verdictByFullGrade)}.`;
    fill(after, el('section', { class: 'change', 'aria-label': 'What changed' }, el('h2', {}, stepName), el('p', {}, line), el('p', {}, end),
      view.recomputedInMs ? el('p', { class: 'soft' }, `Computed again and saved in ${view.recomputedInMs.toFixed(0)} ms.`) : null));
    say(`${stepName}. ${line} Saved.`);
  }

  /** Has the site measured again from its recording. */
  async function remeasure(stepName, decision) {
    const before = state.pair();
    const verdict = view.summary.verdictByFullGrade;
    const job = await post(`${path}/measurements`, { stepName, decision });
    const ended = await progress(work, job.id);
    if (ended.state !== 'done') return;
    await renew();
    showChange(stepName, before, verdict);
    draw();
  }
  /** The site as it is now, with the signal as it is filtered now. */
  async function renew() {
    const filterBefore = view.site.conditioning?.highPassHz;
    view = await get(path);
    pictures.clear();
    if (view.site.conditioning?.highPassHz !== filterBefore) strip.reload();
  }

  async function decideWithReason(stepName, decision, extra = null) {
    const reason = el('input', { list: 'reasons', size: 40, maxlength: 300 });
    const answer = await ask(`${stepName}?`, el('div', {}, extra, field('Why', reason),
      el('datalist', { id: 'reasons' }, REASONS.map((r) => el('option', { value: r })))),
    () => (reason.value.trim() ? { reason: reason.value.trim() } : 'A decision that changes a result needs a reason.'), 'Decide');
    if (answer) await decide(stepName, { ...(typeof decision === 'function' ? decision() : decision), reason: answer.reason });
  }

  async function move(direction) {
    const before = state.pair();
    const verdict = view.summary.verdictByFullGrade;
    const study = await post(`/api/studies/${id}/${direction}`, {});
    if (!study.moved) { say(direction === 'undo' ? 'There is nothing to undo.' : 'There is nothing to redo.'); return; }
    await renew();
    showChange(`${direction === 'undo' ? 'Undone' : 'Redone'}: ${study.moved}`, before, verdict);
    draw();
  }

  function step(by) {
    const sweeps = state.sweeps();
    if (!sweeps.length) return;
    const at = sweeps.findIndex((s) => s.sweep === state.sweep);
    state.select(sweeps[Math.max(0, Math.min(sweeps.length - 1, at < 0 ? 0 : at + by))].sweep);
  }
  function markSweep(mark, wordsOf) {
    const pair = state.pair();
    if (!pair || !state.sweep) { say('Choose a sweep first: arrow keys, or the field Sweep.'); return; }
    const decision = { kind: 'sweeps', signal: pair.id, firstSweep: state.sweep, lastSweep: state.sweep, mark };
    decideWithReason(`${wordsOf} sweep ${state.sweep} of ${pair.id}`, decision);
  }
  for (const [key, wordsOf, run] of [
    ['j', 'next sweep', () => step(1)], ['k', 'sweep before', () => step(-1)],
    ['x', 'exclude the chosen sweep', () => markSweep('excluded', 'Exclude')],
    ['b', 'mark it blocked', () => markSweep('blocked', 'Mark as blocked')],
    ['o', 'mark it obscured', () => markSweep('obscured', 'Mark as obscured')],
    ['r', 'restore it as found', () => markSweep('automatic', 'Restore')],
    ['u', 'undo the last step', () => move('undo')], ['Ctrl+z', 'undo the last step', () => move('undo')], ['Ctrl+Shift+z', 'redo', () => move('redo')],
    ['n', 'next site', () => go(1)], ['p', 'site before', () => go(-1)],
  ]) keys.set(key, { words: wordsOf, run });
  function go(by) {
    const next = Number(siteNumber) + by;
    if (next >= 0 && next < view.siteCount) location.hash = `#/study/${id}/${partNumber}/${next}`;
  }

  function claim(unit) {
    return el('section', {}, el('h2', {}, 'Claim: is each potential one fibre?'),
      unit.potentials.length === 0 ? el('p', {}, 'No potential was found.') : el('div', { class: 'cards' }, unit.potentials.map((p) => {
        const found = automaticUnit(unit)?.potentials.find((a) => a.id === p.id);
        const isTrigger = unit.pairs.some((s) => s.triggerPotential === p.id);
        return el('article', { class: 'sheet' },
          el('h3', {}, `Potential ${p.id} `, isTrigger ? el('span', { class: 'word' }, 'trigger') : null),
          el('p', {}, el('span', { class: `word ${p.grade === 'composite' ? 'raise' : p.grade === 'doubtful' ? 'mark' : p.grade === 'single-fibre' ? 'ok' : ''}` }, view.isBlind && p.grade === 'ungraded' ? 'not judged yet' : gradeWords(p.grade)),
            p.singleFibreProbability === null ? '' : ` probability of one fibre ${probability(p.singleFibreProbability)}`,
            found && found.grade !== p.grade ? el('span', { class: 'soft' }, ` (automatic: ${gradeWords(found.grade)})`) : ''),
          p.drawing ? potentialFigure(p) : null,
          el('p', { class: 'soft' }, `${p.amplitudeUv === null ? 'amplitude not known' : `${number(p.amplitudeUv, 0)} µV`}, rise ${p.riseTimeUs === null ? 'not told' : `${number(p.riseTimeUs, 0)} µs`}, ${number(p.snr, 0)} times the noise, arrival error ${number(p.arrivalErrorUs)} µs, ${number(p.offsetMs, 2)} ms from the ${view.site.stimulation ? 'stimulus' : 'trigger'}`),
          findings(p.findings),
          el('div', { class: 'row' },
            el('button', { 'aria-label': `Change grade of ${p.id}`, onclick: () => {
              const grade = choice(GRADES, p.grade);
              decideWithReason(`Grade potential ${p.id} otherwise`, () => ({ kind: 'grading', potential: p.id, grade: grade.value }), field('Grade', grade));
            } }, 'Change grade …'),
            !isTrigger && unit.pairs.length > 0 && !view.site.stimulation ? el('button', { 'aria-label': `Make ${p.id} the trigger`, onclick: () => decideWithReason(`Make ${p.id} the trigger`, { kind: 'trigger', unit: unit.id, potential: p.id }) }, 'Make trigger …') : null,
            el('button', { 'aria-label': `Exclude potential ${p.id}`, onclick: () => decideWithReason(`Exclude potential ${p.id}`, { kind: 'potential', potential: p.id, standing: 'excluded' }) }, 'Exclude …'),
            el('button', { 'aria-label': `Restore potential ${p.id}`, onclick: () => decideWithReason(`Restore potential ${p.id}`, { kind: 'potential', potential: p.id, standing: 'counted' }) }, 'Restore …')));
      })));
  }
  const automaticUnit = (unit) => (view.automatic.motorUnits ?? [{ id: 'stimuli', potentials: view.automatic.stimulation?.potentials ?? [], pairs: view.automatic.stimulation?.endPlates ?? [] }]).find((u) => u.id === unit.id);

  function evidenceSection(unit, pair) {
    if (!pair) return el('section', {}, el('h2', {}, 'Evidence'), el('p', {}, 'One potential alone: there is no interval to show.'));
    const sweepField = el('input', { type: 'number', id: 'sweep', min: 1, max: pair.sweeps, value: state.sweep ?? '', onchange: (e) => state.select(Number(e.target.value)) });
    return el('section', {}, el('h2', {}, 'Evidence'),
      el('div', { class: 'row', role: 'group', 'aria-label': 'What is plotted' }, EVIDENCE.map(([kind, wordsOf]) => el('button', {
        'aria-pressed': String(state.kind === kind), onclick: (e) => { state.kind = kind; draw(); place.querySelector(`[data-kind="${kind}"]`)?.focus(); }, 'data-kind': kind }, wordsOf))),
      evidence(state, unit, pair),
      el('div', { class: 'row end' }, field('Sweep', sweepField),
        el('button', { onclick: () => step(-1) }, 'Before'), el('button', { onclick: () => step(1) }, 'Next'),
        el('button', { onclick: () => markSweep('excluded', 'Exclude') }, 'Exclude …'),
        el('button', { onclick: () => markSweep('blocked', 'Mark as blocked') }, 'Blocked …'),
        el('button', { onclick: () => markSweep('obscured', 'Mark as obscured') }, 'Obscured …'),
        el('button', { onclick: () => markSweep('automatic', 'Restore') }, 'Restore …')));
  }

  /** For what a limit holds. */
  const examined = () => [view.examined.muscle ?? 'muscle not given', view.examined.activation, `${view.examined.needle ?? 'not given'} needle`].join(', ');
  function numberSection(unit, pair) {
    if (!pair) return null;
    const found = automaticUnit(unit)?.pairs.find((a) => a.id === pair.id);
    const big = (label, value, unitWords, was) => el('div', { class: 'number' }, el('div', { class: 'value' }, value, unitWords ? el('span', { class: 'unit' }, ` ${unitWords}`) : ''),
      el('div', { class: 'label' }, label), compare ? el('div', { class: 'was' }, `automatic: ${was}`) : null);
    const limit = view.summary.limits?.individualUs ?? null;
    const above = limit !== null && pair.jitterUs !== null && pair.jitterUs > limit;
    return el('section', {}, el('h2', {}, 'Number'),
      view.isBlind ? null : el('div', { class: 'row' }, el('button', { 'aria-pressed': String(compare), onclick: () => { compare = !compare; draw(); } }, 'Compare with automatic')),
      el('div', { class: 'numbers' },
        big(pair.jitterStatistic === 'mean-sorted-difference' ? 'jitter (mean sorted-data difference)' : 'jitter (mean consecutive difference)', number(pair.jitterUs), 'µs', number(found?.jitterUs)),
        big('corrected, with 95 % interval', pair.correctedJitterUs === null ? 'not known' : `${number(pair.correctedJitterUs)} (${number(pair.correctedJitterLowUs)} to ${number(pair.correctedJitterHighUs)})`, 'µs', number(found?.correctedJitterUs)),
        big('timing floor', number(pair.timingFloorUs), 'µs', number(found?.timingFloorUs)),
        big('blocking', number(pair.blockingPercent), '%', number(found?.blockingPercent)),
        big(view.site.stimulation ? 'mean latency' : 'mean interval', number(pair.meanIntervalUs ?? pair.meanLatencyUs, 0), 'µs', number(found?.meanIntervalUs ?? found?.meanLatencyUs, 0))),
      el('p', {}, el('span', { class: `word ${above ? 'raise' : ''}` }, pair.status),
        view.isBlind ? ' A blind reading: limits are hidden.' : limit === null ? ' Compared with nothing: no limit set fits.' : ` ${pair.jitterUs === null ? 'No number to compare with' : above ? 'Above' : 'Not above'} the limit ${limit} µs of a single signal (${examined()}, set ${view.summary.limits.set}).`),
      table('Sweeps of this signal', ['Sweeps', 'present', 'blocked', 'trigger absent', 'obscured', 'excluded', 'differences'],
        [[pair.sweeps, pair.presentSweeps, pair.blockedSweeps, pair.triggerAbsentSweeps ?? 0, pair.obscuredSweeps, pair.excludedSweeps, pair.differences]]),
      findings(pair.findings), findings(unit.findings),
      el('div', { class: 'row' },
        el('button', { onclick: () => decideWithReason(`Exclude signal ${pair.id}`, { kind: 'signal', signal: pair.id, standing: 'excluded' }) }, 'Exclude this signal …'),
        el('button', { onclick: () => decideWithReason(`Restore signal ${pair.id}`, { kind: 'signal', signal: pair.id, standing: 'counted' }) }, 'Restore this signal …')));
  }

  function draw() {
    const units = state.units();
    state.unit = Math.min(state.unit, Math.max(0, units.length - 1));
    const unit = state.current();
    const pair = state.pair();
    state.signal = pair?.id ?? null;
    const top = scrollY;
    fill(place,
      units.length > 1 || (unit && unit.pairs.length > 1) ? el('div', { class: 'row end' },
        units.length > 1 ? field('Motor unit', choice(units.map((u, i) => [String(i), `unit ${u.id}, ${u.potentials.length} potentials`]), String(state.unit), { onchange: (e) => { state.unit = Number(e.target.value); state.signal = null; state.sweep = null; draw(); } })) : null,
        unit && unit.pairs.length > 1 ? field('Signal', choice(unit.pairs.map((p) => [p.id, `${p.id}, ${number(p.jitterUs)} µs`]), pair.id, { onchange: (e) => { state.signal = e.target.value; state.sweep = null; draw(); } })) : null) : null,
      unit ? [claim(unit), evidenceSection(unit, pair), numberSection(unit, pair)] : el('p', {}, view.site.stimulation ? 'No potential follows the stimuli.' : 'No motor unit was found that fires repeatedly.'),
      measuring(view, state, remeasure),
      el('section', {}, el('h2', {}, 'About the recording'), findings(view.site.findings),
        el('p', { class: 'soft' }, `${view.site.format}, signal ${view.site.channel}, ${number(view.site.samplingRateHz, 0)} Hz, noise ${number(view.site.noiseUv)} µV, settings ${view.settingsHash.slice(0, 12)}.`)),
      stepsSection());
    scrollTo(0, top);
    strip.redraw();
  }

  function stepsSection() {
    return el('section', {}, el('h2', {}, 'Steps at this site'),
      el('div', { class: 'row' }, el('button', { onclick: () => move('undo') }, 'Undo last step of the study'), el('button', { onclick: () => move('redo') }, 'Redo'), el('a', { href: `#/changes/${id}` }, 'Record of changes')),
      view.steps.length === 0 ? el('p', {}, view.isBlind ? 'Nothing was decided here yet.' : 'Nothing was decided here: the automatic result holds.')
        : table('Decisions about this site', ['Step', 'Why', 'Who', 'When (UTC)', 'State'], view.steps.map((s) => [s.stepName, s.reason, s.actor, s.decidedAt.replace('T', ' ').slice(0, 19), el('span', { class: `word ${s.state === 'active' && !view.setAside.includes(s.sequence) ? '' : 'mark'}` }, view.setAside.includes(s.sequence) ? 'set aside: said of an earlier measurement' : s.state)])));
  }
  state.show = (kind) => { state.kind = kind; draw(); };
  keys.set('Escape', { words: 'point at nothing', run: () => { state.pointing = false; } });

  fill(main,
    el('p', {}, el('a', { href: `#/study/${id}` }, view.study.title), view.study.provenance === 'demo' ? [' ', el('span', { class: 'demo' }, 'DEMO')] : null),
    el('h1', {}, `Site ${view.site.site}`),
    el('div', { class: 'row' },
      el('button', { onclick: () => go(-1), disabled: Number(siteNumber) === 0 }, 'Site before'),
      el('button', { onclick: () => go(1), disabled: Number(siteNumber) + 1 >= view.siteCount }, 'Next site'),
      el('span', { class: 'soft' }, `site ${Number(siteNumber) + 1} of ${view.siteCount}, file ${view.site.file}`)),
    strip.element, work, after, place);
  identity(`${view.study.title}, subject ${view.study.subjectCode ?? 'without code'}, site ${view.site.site}`);
  draw();
  return () => strip.stop();
}

/** @param {any} pair sweeps of a pair or end-plate in one form */
export function sweepsOf(pair) {
  let sweeps = formed.get(pair);
  if (!sweeps) {
    sweeps = (pair.intervals ?? pair.latencies).map((s) => ({ sweep: s.sweep, timeS: s.timeS, valueUs: s.intervalUs ?? s.latencyUs ?? null, errorUs: s.errorUs, state: s.state }));
    formed.set(pair, sweeps);
  }
  return sweeps;
}
const formed = new WeakMap();

/** @param {string} verdict */
export const words = (verdict) => verdict.replaceAll('-', ' ');

/** @param {any[]} list */
export function findings(list) {
  return list.length === 0 ? null : el('ul', { class: 'findings' }, list.map((f) => el('li', {},
    el('span', { class: `word ${f.severity === 'exclusion' ? 'raise' : f.severity === 'caution' ? 'mark' : ''}` }, f.severity), ` ${signs(f.text)}`)));
}
