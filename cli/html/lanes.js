// Steps of several people at the same time: a moment has a lane each, and is one press of Next.
// Whoever works alone has one lane, and each moment is one step.
'use strict';
const glueupLanes = (() => {
  // A step, as the list shows it.
  const lineOf = (li) => ({
    li,
    n: Number(li.dataset.n),
    last: Number(li.dataset.last),  // a line may stand for several steps of the plan
    start: Number(li.dataset.start),
    end: Number(li.dataset.end),
    starts: li.dataset.steps.split(' ').map(Number),  // of each of them
    text: li.querySelector('.say').textContent,
    who: li.dataset.who || '',
    people: li.querySelector('.who') ? li.querySelector('.who').textContent : '',
    picture: li.querySelector('svg.step'),
    clamps: li.dataset.clamps ? li.dataset.clamps.split(' ') : [],
  });
  const momentOf = (line) => ({ n: line.n, last: line.last, start: line.start, end: line.end, lanes: [[line]] });
  const laneWith = (moment, who) => moment.lanes.find((lane) => lane[0].who === who);

  // It goes on until a step wants more hands than its lane has.
  const moments = (lines) => {
    const all = [];
    for (const line of lines) {
      const now = all[all.length - 1];
      const goesOn = now && (line.start < now.end || (now.lanes.length > 1 && laneWith(now, line.who)));
      if (!goesOn) {
        all.push(momentOf(line));
        continue;
      }
      const own = laneWith(now, line.who);
      if (own) own.push(line); else now.lanes.push([line]);
      now.last = Math.max(now.last, line.last);
      now.end = Math.max(now.end, line.end);
    }
    return all.map((moment) => {
      const sentence = (line) => `${line.n}. ${line.text}`;
      const told = moment.lanes.map((lane) => lane.map((line) => line.text).join(' '));
      return {
        ...moment,
        lines: moment.lanes.flat(),
        text: moment.lanes.length === 1 ? told[0]
          : moment.lanes.map((lane, i) => `${lane[0].people}: ${told[i]}`).join(' '),
        said: moment.lanes.length === 1 ? sentence(moment.lanes[0][0])
          : moment.lanes.map((lane) => `${lane[0].people}: ${lane.map(sentence).join(' ')}`).join(' '),
      };
    });
  };

  // Where a lane is, by the instants at which its steps were ended with a tap; nothing when it is through.
  const current = (lane, ends) => lane.find((line) => !(line.n in ends));

  // Instants in s at which a line of a moment began and ended, by taps or else as planned, within the moment's own
  // `from` and `to`; `to` is nothing while it lasts.
  const times = (moment, n, ends, from, to) => {
    const lane = moment.lanes.find((each) => each.some((line) => line.n <= n && n <= line.last));
    const at = lane.findIndex((line) => line.n <= n && n <= line.last);
    const line = lane[at];
    const within = (s) => (to === null ? s : Math.min(s, to));
    const before = at > 0 ? ends[lane[at - 1].n] : undefined;
    const begin = at === 0 ? from + line.start - moment.start
      : within(before === undefined ? from + line.start - moment.start : before);
    const lastOfLane = at + 1 === lane.length;
    const own = ends[line.n];
    const end = own !== undefined ? within(own) : to === null ? null
      : lastOfLane ? to : within(Math.max(begin, from + line.end - moment.start));
    return { begin, end };
  };
  return { lineOf, moments, current, times };
})();
