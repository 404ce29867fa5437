// How a site is measured: filter, trigger level, units and missed potentials. Each change takes the samples again.
import { el, field, choice, number, say, ask } from './dom.js';

/** Numbers and ranges as a list; null if it is none. @param {string} text */
function numbers(text) {
  const all = new Set();
  for (const part of text.split(/[,;\s]+/).filter(Boolean)) {
    const found = /^(\d{1,5})(?:-(\d{1,5}))?$/.exec(part);
    if (!found || Number(found[2] ?? found[1]) < Number(found[1]) || Number(found[1]) < 1) return null;
    for (let n = Number(found[1]); n <= Number(found[2] ?? found[1]); n++) all.add(n);
  }
  return [...all].sort((a, b) => a - b);
}

/**
 * @param {any} view the site
 * @param {any} state selection
 * @param {(stepName: string, decision: any) => Promise<void>} remeasure
 */
export function measuring(view, state, remeasure) {
  const conditioning = view.site.conditioning;
  const units = view.site.motorUnits ?? [];
  const unit = state.current();

  async function decide(stepName, decision, extra = null) {
    const reason = el('input', { size: 40, maxlength: 300 });
    const held = view.steps.filter((s) => s.state === 'active' && !/"kind":"(stretch|filter|level|missed|merge|split)"/.test(s.content) && !view.setAside.includes(s.sequence));
    const answer = await ask(`${stepName}?`, el('div', {}, extra, field('Why', reason),
      el('p', {}, 'The site is measured again from its recording.'),
      held.length ? el('p', { class: 'change' }, `${held.length} earlier ${held.length === 1 ? 'decision' : 'decisions'} about potentials, signals or sweeps of this site will be set aside: they were said of the present measurement. Undo brings them back.`) : null),
    () => {
      if (!reason.value.trim()) return 'A decision that changes a result needs a reason.';
      const made = typeof decision === 'function' ? decision() : { name: stepName, decision };
      return typeof made === 'string' ? made : { ...made, reason: reason.value.trim() };
    }, 'Measure again');
    if (answer) await remeasure(answer.name, { ...answer.decision, reason: answer.reason });
  }

  const filter = () => {
    const hz = el('input', { type: 'number', min: 1, max: 10000, step: 'any', value: conditioning?.highPassHz ?? '' });
    decide('Change the filter', () => (Number(hz.value) >= 1 && Number(hz.value) <= 10000
      ? { name: `High-pass ${hz.value} Hz`, decision: { kind: 'filter', highPassHz: Number(hz.value) } } : 'The high-pass is 1 to 10000 Hz.'), field('High-pass, Hz', hz));
  };
  const level = () => {
    const ratio = el('input', { type: 'number', min: 2, max: 20, step: 0.1, value: 4.5 });
    decide('Change the trigger level', () => (Number(ratio.value) >= 2 && Number(ratio.value) <= 20
      ? { name: `Trigger level ${ratio.value} times the noise`, decision: { kind: 'level', thresholdRatio: Number(ratio.value) } } : 'The trigger level is 2 to 20 times the noise.'), field('Slope over its noise from which a potential is looked at', ratio));
  };
  const others = units.filter((u) => u.id !== unit?.id);
  const merge = () => {
    const other = choice(others.map((u) => [u.id, `unit ${u.id}, ${u.discharges} discharges`]), others[0].id);
    decide(`Merge unit ${unit.id} with another`, () => ({ name: `Merge units ${unit.id} and ${other.value}`, decision: { kind: 'merge', unit: unit.id, other: other.value } }), field('The other unit', other));
  };
  const split = () => {
    const chosen = el('input', { size: 40, maxlength: 2000, placeholder: '5, 9-12' });
    decide(`Split unit ${unit.id}`, () => {
      const sweeps = numbers(chosen.value);
      if (sweeps === null) return 'Give numbers of sweeps and ranges, as 5, 9-12, or nothing.';
      return { name: `Split unit ${unit.id}${sweeps.length ? `, ${sweeps.length} sweeps chosen` : ''}`, decision: { kind: 'split', unit: unit.id, ...(sweeps.length ? { sweeps } : {}) } };
    }, field('Sweeps that belong to the second unit; empty: as sizes and intervals fall into groups', chosen));
  };

  /** Asks for the place of a missed potential, begun where a person pointed. @param {number|null} offsetMs */
  state.missed = (offsetMs) => {
    state.pointing = false;
    const [low, high, from] = view.site.stimulation ? [0, 50, 'stimulus'] : [-15, 15, 'trigger'];
    const place = el('input', { type: 'number', min: low, max: high, step: 0.01, value: offsetMs === null ? '' : offsetMs.toFixed(2) });
    const what = view.site.stimulation ? 'Add a potential after the stimuli' : `Add a potential to unit ${unit.id}`;
    decide(what, () => (place.value !== '' && Number(place.value) >= low && Number(place.value) <= high
      ? { name: `${what} at ${Number(place.value).toFixed(2)} ms`, decision: { kind: 'missed', unit: unit.id, offsetMs: Number(place.value) } } : `Give a place ${low} to ${high} ms from the ${from}.`), field(`Place from the ${from}, ms`, place));
  };
  const point = () => {
    if (state.kind !== 'superimposed') state.show('superimposed');
    state.pointing = true;
    say('Point at the missed potential in the sweeps, or press Escape.');
  };

  return el('section', {}, el('h2', {}, 'How it is measured'),
    el('p', {}, conditioning ? `High-pass ${number(conditioning.highPassHz, 0)} Hz, low-pass ${conditioning.lowPassHz === null ? 'none' : `${number(conditioning.lowPassHz, 0)} Hz`}, order ${conditioning.order} each way, phase ${conditioning.phase}${conditioning.prefilter ? `; filtered before: ${conditioning.prefilter}` : ''}. ` : 'Nothing was filtered. ',
      view.isRemeasured ? el('span', { class: 'word mark' }, 'measured again as a person wanted it') : 'As the program measures by itself.'),
    el('div', { class: 'row' },
      el('button', { onclick: filter }, 'Change filter …'), el('button', { onclick: level }, 'Change trigger level …'),
      unit ? [el('button', { onclick: point }, 'Point at a missed potential'), el('button', { onclick: () => state.missed(null) }, 'Add a potential by its place …')] : null,
      unit && !view.site.stimulation ? [
        el('button', { onclick: merge, disabled: others.length === 0 }, 'Merge units …'), el('button', { onclick: split }, 'Split this unit …')] : null));
}
