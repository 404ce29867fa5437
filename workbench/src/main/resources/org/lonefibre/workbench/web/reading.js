// Second readers: a study is given to another person blind; the two readings are compared.
import { el, fill, table, number, say, ask } from './dom.js';
import { get, post, person } from './api.js';
import { words, gradeWords } from './site.js';

/** The page of a reader from whom grades are hidden. @param {string} id @param {any} view @param {() => Promise<void>} reload */
export function blindPage(id, view, reload) {
  const sites = view.parts.flatMap((p, i) => p.sites.map((s, n) => ({ ...s, href: `#/study/${id}/${i}/${n}` })));
  const all = sites.reduce((sum, s) => sum + s.potentials, 0);
  const judged = sites.reduce((sum, s) => sum + s.judged, 0);
  return el('section', {}, el('h2', {}, 'A second reading'),
    el('p', { class: 'lead' }, 'Judge each potential by what you see. Grades, findings, the comparison with limits and the decisions of the first reader are hidden until you have finished.'),
    el('p', {}, `${judged} of ${all} potentials are judged. Those you leave out keep the automatic grade and are not compared.`),
    table('Sites to be read', ['Site', 'Potentials', 'Judged'], sites.map((s) => [el('a', { href: s.href }, s.site), s.potentials, s.judged]), [1, 2]),
    el('button', { class: 'main', onclick: async () => {
      const sure = await ask('Finish this reading?', el('p', {}, 'Grades are shown afterwards, and the two readings are compared. It cannot be made blind again.'), () => true, 'Finish');
      if (sure) { await post(`/api/studies/${id}/reading/finished`, {}); await reload(); say('The reading is finished; grades are shown.'); }
    } }, 'Finish the reading …'));
}

/** Readings of a study beside each other. @param {string} id @param {any} view */
export function readings(id, view) {
  const place = el('div');
  if (view.parts.length > 0) {
    get(`/api/studies/${id}/readings`).then((found) => fill(place, found.readings.map(comparison),
      found.readings.length === 0 ? el('p', {}, 'Nobody else has read this study.') : null));
  }
  return el('section', {}, el('h2', {}, 'Second reader'),
    view.reading ? el('p', {}, 'This is a second reading. ', el('a', { href: `#/study/${view.reading.of}` }, 'To the first'))
      : el('p', { class: 'soft' }, 'Another person reads the same recordings without seeing grades or decisions. On one computer this keeps the pages blind, not the person: the record of changes says who opened what was changed.'),
    view.reading || view.parts.length === 0 ? null : el('button', { onclick: async () => {
      const sure = await ask('Give this study to a second reader?', el('p', {}, `A study of its own is begun from the automatic measurement, without the decisions taken here. You work as ${person() || '(say who you are first)'}; the second reader puts another name at the top.`), () => true, 'Begin the blind reading');
      if (sure) { const made = await post(`/api/studies/${id}/readings`, {}); location.hash = `#/study/${made.study}`; }
    } }, 'Give to a second reader …'), place);
}

function comparison(r) {
  if (r.state === 'blind') return el('p', {}, el('span', { class: 'word mark' }, 'blind'), ' ', el('a', { href: `#/study/${r.study}` }, r.title), ' is not finished.');
  const a = r.agreement;
  const differing = r.potentials.filter((p) => p.first !== p.second);
  const moved = r.signals.filter((s) => s.firstStatus !== s.secondStatus || (s.differenceUs ?? 0) !== 0);
  return el('article', { class: 'sheet', 'aria-label': `Compared with ${r.title}` }, el('h3', {}, el('a', { href: `#/study/${r.study}` }, r.title)),
    el('p', {}, a.compared === 0 ? 'The second reader judged no potential.'
      : `${a.agreed} of ${a.compared} potentials are graded alike; ${a.kappa === null ? 'kappa is not defined, as both give one grade throughout' : `kappa ${number(a.kappa, 2)} (95 % ${number(a.kappaLow, 2)} to ${number(a.kappaHigh, 2)})`}.`,
    r.notJudged ? ` ${r.notJudged} were not judged.` : '', r.sitesMeasuredOtherwise ? ` ${r.sitesMeasuredOtherwise} sites were measured otherwise by one reader and are left out.` : ''),
    r.verdicts.map((v) => el('p', {}, v.first === v.second ? `The comparison with limits is the same: ${words(v.first)}.` : ['The comparison with limits turns: first ', el('span', { class: 'word' }, words(v.first)), ', second ', el('span', { class: 'word mark' }, words(v.second)), '.'],
      ` Mean jitter ${number(v.firstMeanJitterUs)} and ${number(v.secondMeanJitterUs)} µs.`)),
    differing.length ? table('Potentials graded otherwise', ['Site', 'Potential', 'First reader', 'Second reader'], differing.map((p) => [p.site, p.potential, gradeWords(p.first), gradeWords(p.second)])) : null,
    moved.length ? table('Signals that differ', ['Site', 'Signal', 'First, µs', 'Second, µs', 'Difference, µs', 'First', 'Second'],
      moved.map((s) => [s.site, s.signal, number(s.firstJitterUs), number(s.secondJitterUs), number(s.differenceUs), s.firstStatus, s.secondStatus ?? 'not there']), [2, 3, 4]) : null);
}
