// Limits of the laboratory's own, from its kept studies of healthy volunteers.
import { el, number, table } from './dom.js';
import { get } from './api.js';

/** What the marked studies give so far. @returns {Promise<HTMLElement>} */
export async function controls() {
  const all = await get('/api/controls');
  return el('section', {}, el('h2', {}, 'Own controls'),
    el('p', {}, all.groups.length === 0
      ? 'No kept study of a healthy volunteer counts yet. Mark such a study on its page before its result is known.'
      : `${all.subjects} ${all.subjects === 1 ? 'subject' : 'subjects'}. What the program accepted counts, whatever was decided later; a subject counts once. “lonefibre controls --kept --out own.csv” writes the limits as a file to be added above.`),
    all.groups.map((g) => {
      const name = `${g.muscle}, ${g.needle} needle, ${g.activation}: ${g.subjects} ${g.subjects === 1 ? 'subject' : 'subjects'}`;
      return [g.limits.length === 0 ? el('p', {}, `${name}: at least 3 are needed to compute anything.`) :
        table(name, ['Limit of', 'Method', 'µs', '90 % interval', 'Standing'], g.limits.map((l) => [l.what, l.method, number(l.valueUs), `${number(l.lowUs)} to ${number(l.highUs)}`,
          el('span', { class: `word ${l.enough ? '' : 'mark'}` }, l.enough ? 'enough subjects' : `too few: ${l.fewest} needed`)]), [2, 3]),
      el('p', { class: 'soft' }, `Accepted by grading ${g.grading}. ${g.warnings.join(' ')}`)];
    }),
    all.leftOut.length === 0 ? null : [el('h3', {}, 'Left out'), el('ul', {}, all.leftOut.map((line) => el('li', {}, line)))]);
}
