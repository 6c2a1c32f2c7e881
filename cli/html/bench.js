// The clock of the bench sheet. It reads the steps and limits that the page shows, keeps the instant at
// which each step began, and never counts ticks: a locked phone or a reload loses nothing.
// Sections: what folds, what the page says, what is remembered, time, alarm and voice, drawing, the run,
// the buttons.
'use strict';
(() => {
  document.documentElement.classList.add('js');
  // Folds shut on a screen alone: paper shows all.
  const paper = window.matchMedia('print');
  const folds = [...document.querySelectorAll('details.fold')];
  const opened = new Set();
  const fold = () => folds.forEach((each) => {
    each.open = paper.matches || opened.has(each);
  });
  folds.forEach((each) => each.querySelector('summary').addEventListener('click', () => {
    if (each.open) opened.delete(each); else opened.add(each);
  }));
  paper.addEventListener('change', fold);
  window.addEventListener('beforeprint', () => folds.forEach((each) => { each.open = true; }));
  window.addEventListener('afterprint', fold);
  fold();

  const clamp = document.body.dataset.clamp;  // as the job's words have it
  const stages = [...document.querySelectorAll('section.stage')].map((section) => ({
    section,
    n: section.dataset.n,
    pullApartBy: Number(section.dataset.pullApartBy),
    clampTime: Number(section.dataset.clampTime),
    squeezeOut: Number(section.dataset.squeezeOut),  // 0: at no time of its own
    steps: glueupLanes.moments([...section.querySelectorAll('.steps li')].map(glueupLanes.lineOf)),
    joints: [...section.querySelectorAll('tr[data-joint]')].map((tr) => ({
      name: tr.dataset.joint,
      parts: tr.dataset.parts.split(' '),
      letters: tr.dataset.letters,
      spread: Number(tr.dataset.spread),
      join: Number(tr.dataset.join),
      snug: Number(tr.dataset.snug),
      open: Number(tr.dataset.open),
      total: Number(tr.dataset.total),
    })),
  })).filter((stage) => stage.steps.length > 0);

  // The same plan finds its ticks again, another plan does not.
  const fingerprint = (text) => {
    let hash = 2166136261;
    for (let i = 0; i < text.length; i += 1) {
      hash = Math.imul(hash ^ text.charCodeAt(i), 16777619);
    }
    return (hash >>> 0).toString(36);
  };
  const storeKey = `glueup:${fingerprint(document.querySelector('main').textContent)}`;
  const load = () => {
    try {
      return JSON.parse(localStorage.getItem(storeKey)) || {};
    } catch (error) {
      return {};  // storage refused or broken: the clock still runs, without memory
    }
  };
  const saved = load();
  const state = {
    stage: Math.min(saved.stage || 0, Math.max(0, stages.length - 1)),
    began: saved.began || {},   // stage -> instants at which its steps began, in ms
    ends: saved.ends || {},     // stage -> instants in s at which one of two people was through, by step
    notes: saved.notes || {},   // stage -> notes by step index
    ticks: saved.ticks || {},
    voice: saved.voice || false,
    rehearsal: saved.rehearsal || false,
  };
  // Only what would be glued needs a plan that works.
  const works = document.getElementById('clock').dataset.ok === 'yes';
  const save = () => {
    try {
      localStorage.setItem(storeKey, JSON.stringify(state));
    } catch (error) { /* as above */ }
  };

  for (const box of document.querySelectorAll('input[data-key]')) {
    box.checked = Boolean(state.ticks[box.dataset.key]);
    box.addEventListener('change', () => {
      state.ticks[box.dataset.key] = box.checked;
      save();
    });
  }
  if (stages.length === 0) {
    return;
  }

  const element = (tag, className, text) => {
    const made = document.createElement(tag);
    made.className = className;
    made.textContent = text || '';
    return made;
  };
  const clock = document.getElementById('clock');
  const face = {
    mode: element('p', 'mode'),
    pace: element('p', 'pace'),
    planned: element('p', 'planned'),
    now: element('p', 'now'),
    next: element('p', 'next'),
    left: element('p', 'left'),
    key: element('p', 'planned least-key'),
    apart: element('p', 'planned'),
    called: element('p', 'planned'),
    awake: element('p', 'planned'),
    spoken: element('p', 'quiet'),
  };
  face.left.setAttribute('role', 'timer');
  face.spoken.setAttribute('aria-live', 'assertive');
  const button = (className, text, act) => {
    const made = element('button', className, text);
    made.type = 'button';
    made.addEventListener('click', act);
    return made;
  };

  const began = () => state.began[state.stage] || [];
  const stage = () => stages[state.stage];
  const running = () => began().length - 1;  // index of the step under way; -1 before the start
  const finished = () => running() >= stage().steps.length;
  const minutes = (seconds) => {
    const s = Math.max(0, Math.round(Math.abs(seconds)));
    return `${Math.floor(s / 60)}:${String(s % 60).padStart(2, '0')}`;
  };

  // The instant in seconds since the start at which step number `n` began; nothing if it hasn't.
  const lineOf = (n) => stage().steps.findIndex((step) => step.n <= n && n <= step.last);
  const lineBegan = (index) => (index < began().length ? (began()[index] - began()[0]) / 1000 : null);
  const ends = () => state.ends[state.stage] || {};
  const timesOf = (n) => {
    const index = lineOf(n);
    const from = index < 0 ? null : lineBegan(index);
    return from === null ? { begin: null, end: null }
      : glueupLanes.times(stage().steps[index], n, ends(), from, lineBegan(index + 1));
  };
  const sinceStart = () => (Date.now() - began()[0]) / 1000;
  // Of two people one may not have come to it yet.
  const beganAt = (n) => {
    const { begin } = timesOf(n);
    return begin !== null && begin <= sinceStart() ? begin : null;
  };
  const endedAt = (n) => timesOf(n).end;

  // Of the joints that are wet: which has the least time, and the greatest share that is used of any
  // limit.
  const tightest = (now) => {
    let worst = null;
    let used = 0;
    for (const joint of stage().joints) {
      const wet = beganAt(joint.spread);
      const together = endedAt(joint.join) !== null;
      const pressed = joint.snug === 0 || endedAt(joint.snug) !== null;  // 0: it needs no clamp
      if (wet === null || (together && pressed)) {
        continue;
      }
      for (const limit of together ? [joint.total] : [joint.open, joint.total]) {
        const left = wet + limit - now;
        used = Math.max(used, 1 - left / limit);
        if (worst === null || left < worst.left) {
          worst = { ...joint, left };
        }
      }
    }
    return worst && { ...worst, used };
  };
  // Of each joint that is wet and not pressed: what is left of the limit that ends first, and its share.
  const wetJoints = (now) => stage().joints.flatMap((joint) => {
    const wet = beganAt(joint.spread);
    const together = endedAt(joint.join) !== null;
    const pressed = joint.snug === 0 || endedAt(joint.snug) !== null;
    if (wet === null || (together && pressed)) return [];
    const limit = together ? joint.total : Math.min(joint.open, joint.total);
    return [{ ...joint, limit, left: wet + limit - now, share: Math.min(1, Math.max(0, (now - wet) / limit)) }];
  }).sort((a, b) => a.left - b.left);

  // A browser lets sound, buzz and voice begin only with a press of a finger, after a reload too.
  let audio = null;
  document.addEventListener('click', () => {
    if (!audio && window.AudioContext) {
      audio = new AudioContext();
    }
    if (audio && audio.state === 'suspended') {
      audio.resume();
    }
  });
  const touched = () => !navigator.userActivation || navigator.userActivation.hasBeenActive;
  const alarm = (times) => {
    if (navigator.vibrate && touched()) {
      navigator.vibrate(Array(times * 2 - 1).fill(200));
    }
    for (let i = 0; audio && i < times; i += 1) {
      const tone = audio.createOscillator();
      tone.frequency.value = 880;
      tone.connect(audio.destination);
      tone.start(audio.currentTime + i * 0.4);
      tone.stop(audio.currentTime + i * 0.4 + 0.2);
    }
  };
  // Only a voice that speaks on this device: others send the text away.
  const ownVoice = () => (window.speechSynthesis ? speechSynthesis.getVoices() : [])
    .filter((voice) => voice.localService)
    .sort((a, b) => b.lang.startsWith('en') - a.lang.startsWith('en'))[0];
  const say = (text) => {
    face.spoken.textContent = text;
    const voice = ownVoice();
    if (state.voice && voice && touched()) {
      const words = new SpeechSynthesisUtterance(text);
      words.voice = voice;
      words.lang = voice.lang;
      speechSynthesis.cancel();
      speechSynthesis.speak(words);
    }
  };

  let urgency = '';
  let alarmedAt = 0;
  const kAgain_ms = 10000;  // an alarm goes on until what it is about is pressed
  const showLeft = (now) => {
    const worst = tightest(now);
    const word = worst === null ? '' : worst.used >= 1 ? 'over' : worst.used >= 0.75 ? 'soon' : '';
    if (worst === null) {
      face.left.textContent = running() < 0 ? 'No glue out yet' : 'All wet joints are pressed';
    } else {
      face.left.replaceChildren(
        word === 'over' ? 'OVER by ' : '',
        element('b', '', minutes(worst.left)),
        `${word === 'over' ? '' : ' left'}${word === 'soon' ? ', HURRY' : ''}: ${worst.name}`,
      );
    }
    face.left.className = `left ${word}`;
    // Its two parts are told in the picture.
    picture.querySelectorAll('[data-part]').forEach((part) => {
      part.classList.toggle('least', worst !== null && worst.parts.includes(part.dataset.part));
    });
    face.key.textContent = worst === null ? '' : `Brown dashes: ${worst.letters}, where time runs out first.`;
    if (word !== urgency) {
      urgency = word;
      if (word) {
        alarm(word === 'over' ? 3 : 1);
        alarmedAt = Date.now();
        say(face.left.textContent);
      }
    } else if (word === 'over' && Date.now() - alarmedAt >= kAgain_ms) {
      alarm(3);
      alarmedAt = Date.now();
    }
  };

  const moreStages = () => state.stage + 1 < stages.length;
  // What to come back for while it is in the clamps. It sounds a few times, and not if the page was away by then.
  const kSoundsAgain_s = 10;
  const kSounds = 3;
  const sounded = {};  // by what it is for: how often
  const call = (what, since, words) => {
    const times = sounded[what] || 0;
    if (since >= times * kSoundsAgain_s && since < 120 && times < kSounds) {
      sounded[what] = times + 1;
      alarm(2);
      if (times === 0) say(words);
    }
  };
  const restText = (now) => {
    if (state.rehearsal) return 'All tight, and dry. Take it apart again.';
    const since = now - lineBegan(running());
    const left = stage().clampTime - since;
    const pare = stage().squeezeOut - since;
    const off = left > 0 ? `off in ${minutes(left)}` : '';
    if (stage().squeezeOut > 0 && pare <= 0) {
      call(`squeeze-out ${state.stage}`, -pare, 'Pare off the squeeze-out: it is rubbery.');
    }
    if (left <= 0) {
      call(`clamps ${state.stage}`, -left, `The ${clamp}s may come off.`);
      return `The ${clamp}s may come off.`;
    }
    const bead = stage().squeezeOut === 0 ? '' : pare > 0 ? ` Pare off the squeeze-out in ${minutes(pare)}.`
      : ' Pare off the squeeze-out now: it is rubbery.';
    return `All tight. Leave it in the ${clamp}s: ${off}.${bead}`;
  };

  const unticked = () => {
    const open = document.querySelectorAll('input[data-key]:not(:checked)').length;
    return open > 0 ? ` Not ticked: ${open}.` : '';
  };

  // What is looked at: the step under way, or one before it, which changes no time.
  let looking = null;
  const shown = () => (looking === null ? running() : looking);
  const kUndo_ms = 3000;
  let pressedAt = -1e9;  // the last press of Next, which can be taken back for a moment
  const undoes = () => running() >= 0 && Date.now() - pressedAt <= kUndo_ms;

  // Ahead of the plan or behind it: how late this step began, and what it has run over by now.
  const paceText = (now) => {
    const step = stage().steps[running()];
    if (!step) return '';
    const start = lineBegan(running());
    const late = Math.round((start - step.start) + Math.max(0, now - start - (step.end - step.start)));
    return late > 4 ? `${minutes(late)} behind the plan` : late < -4 ? `${minutes(late)} ahead of the plan` : 'On time';
  };
  const svg = (tag, attributes) => {
    const made = document.createElementNS(document.querySelector('svg').namespaceURI, tag);
    Object.entries(attributes).forEach(([name, value]) => made.setAttribute(name, value));
    return made;
  };
  // A ring that closes as this step's own time goes.
  const ring = svg('svg', { class: 'ring', viewBox: '0 0 100 100', 'aria-hidden': 'true' });
  const kRound = 2 * Math.PI * 42;
  const arc = svg('circle', { class: 'arc', cx: 50, cy: 50, r: 42, transform: 'rotate(-90 50 50)' });
  const own = svg('text', { class: 'own', x: 50, y: 58, 'text-anchor': 'middle' });
  ring.append(svg('circle', { class: 'track', cx: 50, cy: 50, r: 42 }), arc, own);
  const drawRing = (now) => {
    const step = stage().steps[running()];
    if (!step) return;
    const left = lineBegan(running()) + (step.end - step.start) - now;
    const share = Math.min(1, Math.max(0, 1 - left / Math.max(1, step.end - step.start)));
    arc.setAttribute('stroke-dasharray', `${share * kRound} ${kRound}`);
    own.textContent = `${left < 0 ? '+' : ''}${minutes(left)}`;
  };
  const bars = element('div', 'bars');
  bars.setAttribute('role', 'region');
  bars.setAttribute('aria-label', 'Wet joints');
  const kRows = 6;  // as many as a phone has room for with their names; more stand closer, by their letters
  const drawBars = (now) => {
    const wet = wetJoints(now);
    const many = wet.length > kRows;
    const key = wet.map((joint) => joint.name).join();
    if (bars.dataset.key !== key) {
      bars.dataset.key = key;
      bars.classList.toggle('many', many);
      bars.tabIndex = many ? 0 : -1;  // they may have to be scrolled
      bars.replaceChildren(...wet.map((joint) => {
        const row = element('div', 'wet');
        const track = element('span', 'track');
        track.append(element('span', 'fill'));
        row.append(element('span', 'who', many ? joint.letters : joint.name), track, element('span', 'rest'));
        return row;
      }));
    }
    wet.forEach((joint, i) => {
      const row = bars.children[i];
      row.querySelector('.fill').style.width = `${Math.round(100 * joint.share)}%`;
      row.classList.toggle('late', joint.left < 0);
      row.querySelector('.rest').textContent = `${joint.left < 0 ? 'over ' : ''}${minutes(joint.left)}${many ? '/' : ' of '}${minutes(joint.limit)}`;
    });
  };
  const picture = element('div', 'picture');
  const marks = element('div', 'clamp-ticks');
  // The clamps of a step in their order, to be ticked: the one whose turn it is is dark in the picture.
  const showTurn = (line, done) => {
    const turn = line.clamps.find((n) => !done.has(n));
    picture.querySelectorAll('.number').forEach((ring) => {
      ring.classList.toggle('turn', ring.dataset.no === turn);
      ring.classList.toggle('ticked', done.has(ring.dataset.no));
    });
  };
  const ticksOf = (line) => {
    const done = new Set();
    return line.clamps.map((n) => {
      const tick = button('tick', n, () => {
        if (done.has(n)) done.delete(n); else done.add(n);
        tick.setAttribute('aria-pressed', String(done.has(n)));
        showTurn(line, done);
      });
      tick.setAttribute('aria-pressed', 'false');
      tick.setAttribute('aria-label', `Number ${n} is done`);
      return tick;
    });
  };
  // One's own step, or that the other is waited for; pressed, it is done.
  const laneOf = (lane, live) => {
    const line = glueupLanes.current(lane, live ? ends() : {});
    const made = element('div', line ? 'lane' : 'lane through');
    made.append(element('p', 'who', lane[0].people));
    if (line) {
      made.append(line.picture.cloneNode(true), element('p', 'say', `${line.n}. ${line.text}`));
    } else {
      made.append(element('p', 'say', 'Done. Wait for the other.'));
    }
    if (live && line) {
      made.append(button('small', 'Done', () => {}));  // of the whole lane, as gloves don't aim
      made.addEventListener('click', () => pressLane(lane));
    }
    return made;
  };
  let pictured = '';
  const drawPicture = () => {
    const index = Math.max(0, Math.min(shown(), stage().steps.length - 1));
    const step = stage().steps[index];
    const live = looking === null;
    const key = [state.stage, index, live, ...step.lanes.map((lane) => (glueupLanes.current(lane, ends()) || {}).n)].join();
    if (pictured === key) return;
    pictured = key;
    const several = step.lanes.length > 1;
    picture.classList.toggle('lanes', several);
    face.now.classList.toggle('quiet', several);  // each lane says its own
    const [only] = step.lines;
    picture.replaceChildren(...(several ? step.lanes.map((lane) => laneOf(lane, live)) : [only.picture.cloneNode(true)]));
    marks.replaceChildren(...(several ? [] : ticksOf(only)));
    if (!several) showTurn(only, new Set());
  };

  const draw = () => {
    const { steps } = stage();
    const at = running();
    const now = at < 0 ? 0 : (Date.now() - began()[0]) / 1000;
    const current = steps[shown()];
    const toStart = !works ? 'This plan does not work yet: rehearse it dry, without glue.'
      : state.rehearsal ? `Rehearse it dry, with every ${clamp} and pad; no glue.`
        : `Hold Start with the first stroke of glue.${unticked()}`;
    face.now.textContent = at < 0 ? toStart
      : finished() && looking === null ? restText(now) : current.said;
    face.mode.textContent = looking !== null ? 'Looking back: the clock runs on' : state.rehearsal ? 'REHEARSAL, no glue' : '';
    face.pace.textContent = at < 0 || finished() ? '' : paceText(now);
    const following = steps[at + 1];
    face.next.textContent = following ? `Then: ${following.text}` : '';
    drawPicture();
    drawRing(now);
    drawBars(now);
    document.body.classList.toggle('run', at >= 0 && !finished() && !listed);
    document.body.classList.toggle('begun', at >= 0);
    const under = steps[at];
    face.planned.textContent = at < 0 ? '' : finished() ? `Done in ${minutes((began()[at] - began()[0]) / 1000)}.`
      : `${minutes(now)} gone; this step was planned for ${minutes(under.start)} to ${minutes(under.end)}.`;
    const last = stage().pullApartBy;
    face.apart.textContent = finished() ? ''
      : now < last ? `Pull apart by ${minutes(last)}${at < 0 ? '' : `, in ${minutes(last - now)}`}.`
        : `It had to be pulled apart by ${minutes(last)}.`;
    showLeft(now);
    steps.forEach((step, index) => step.lines.forEach(({ li, n }) => {
      li.classList.toggle('done', index < at || (index === at && n in ends()));
      if (index === at) {
        li.setAttribute('aria-current', 'step');
      } else {
        li.removeAttribute('aria-current');
      }
    }));
    const begins = works && !state.rehearsal ? 'Start' : 'Start rehearsal';
    go.textContent = looking !== null ? 'Forward' : at < 0 ? begins : at + 1 < steps.length ? 'Next step'
      : !finished() ? 'All tight' : moreStages() ? `On to stage ${state.stage + 2}` : 'Done';
    go.disabled = finished() && !moreStages();
    back.textContent = looking === null && undoes() ? 'Undo' : 'Back';
    back.disabled = at < 0 || shown() === 0 && !undoes();
    called.hidden = at < 0 || finished();
    kind.hidden = at >= 0 || !works;
    again.hidden = at < 0 || !(state.rehearsal || finished());
    list.hidden = at < 0 || finished();
    list.textContent = listed ? 'One step at a time' : 'The whole sheet';
    const text = logText();
    if (log.textContent !== text) {  // else what is selected to be copied stays so
      log.textContent = text;
    }
  };

  // One line a step of the plan: number, planned start and end, real start and end in seconds, note.
  // Steps told as one share its time as they were planned to.
  const logText = () => stages.flatMap((each, which) => {
    const instants = state.began[which] || [];
    const real = (i) => (i < instants.length ? (instants[i] - instants[0]) / 1000 : null);
    const done = state.ends[which] || {};
    return each.steps.slice(0, instants.length).flatMap((step, index) => step.lines.flatMap((line) => {
      const { begin, end } = glueupLanes.times(step, line.n, done, real(index), real(index + 1));
      const bounds = [...line.starts, line.end];
      const share = (k) => (bounds[k] - line.start) / Math.max(1, line.end - line.start);
      const at = (k) => (k === 0 ? begin.toFixed(0) : end === null ? ''
        : (begin + share(k) * (end - begin)).toFixed(0));
      const note = (state.notes[which] || {})[index] || '';
      return line.starts.map((start, k) => [line.n + k, start, bounds[k + 1], at(k), at(k + 1), note]);
    })).sort((a, b) => a[0] - b[0]).map((fields) => fields.join('\t'));
  }).join('\n');

  // The system takes the screen back whenever the page is hidden: ask anew each time it shows.
  let wake = null;
  const stayAwake = async () => {
    if (running() < 0 || finished() || document.visibilityState !== 'visible' || (wake && !wake.released)) {
      return;
    }
    try {
      wake = await navigator.wakeLock.request('screen');
      face.awake.textContent = '';
    } catch (error) {
      face.awake.textContent = 'This browser lets the screen go dark: set a longer time for it. '
        + 'The clock goes on in the dark, but stays silent.';
    }
  };
  const letSleep = () => {
    if (finished() && !state.rehearsal) {
      face.awake.textContent = 'A dark screen stays silent: leave it lit to hear when it is time.';
    }
    if (wake && finished()) {
      wake.release();
      wake = null;
    }
  };
  let pick = null;  // of several stages
  let listed = false;  // the whole sheet is shown though the clock runs
  const kLock_ms = 600;  // a second tap within this is a slip
  let movedOn = true;  // by the last press
  let tapped = [];  // steps of one of two people that the last press ended
  const forward = (ended = []) => {
    if (looking !== null) {
      looking = looking + 1 < running() ? looking + 1 : null;
      draw();
      return;
    }
    if (ended.length === 0 && Date.now() - pressedAt < kLock_ms) {
      return;
    }
    tapped = ended;
    if (finished()) {
      if (!moreStages()) return;
      state.stage += 1;
      urgency = '';
      if (pick) {
        pick.value = String(state.stage);
      }
      save();
      draw();
      return;
    }
    state.began[state.stage] = [...began(), Date.now()];
    movedOn = true;
    pressedAt = Date.now();
    face.called.textContent = '';
    save();
    draw();
    say(face.now.textContent);
    stayAwake();
    letSleep();
    if (running() === 0) {
      scrollTo(0, 0);
    } else if (finished()) {
      face.now.scrollIntoView({ block: 'center' });  // the rest of the sheet is back
    }
  };
  // One of two people is through with a step; when both are through with all of theirs, it goes on.
  const pressLane = (lane) => {
    const line = glueupLanes.current(lane, ends());
    if (!line || Date.now() - (lane.pressedAt || 0) < kLock_ms) return;
    lane.pressedAt = Date.now();
    state.ends[state.stage] = { ...ends(), [line.n]: sinceStart() };
    if (stage().steps[running()].lanes.every((each) => !glueupLanes.current(each, ends()))) {
      forward([line.n]);
      return;
    }
    tapped = [line.n];
    movedOn = false;
    pressedAt = Date.now();
    save();
    draw();
  };
  // Glue is started by holding; a key, or a reader of screens, says it plainly enough.
  const kHold_ms = 1000;
  let holding = 0;
  let started = false;  // by this very press, whose end is no press of its own
  const mustHold = () => running() < 0 && works && !state.rehearsal;
  const go = button('go', 'Start', (event) => {
    const ends = started;
    started = false;
    if (event.detail > 0 && (ends || mustHold())) {
      return;
    }
    forward();
  });
  go.addEventListener('pointerdown', () => {
    started = false;
    if (mustHold()) {
      go.classList.add('held');
      holding = setTimeout(() => {
        go.classList.remove('held');
        started = true;
        forward();
      }, kHold_ms);
    }
  });
  for (const ends of ['pointerup', 'pointerleave', 'pointercancel']) {
    go.addEventListener(ends, () => {
      go.classList.remove('held');
      clearTimeout(holding);
    });
  }
  // Within three seconds Back takes the last press away, as if it had not been; later it only looks.
  const back = button('', 'Back', () => {
    if (looking === null && undoes()) {
      if (movedOn) {
        state.began[state.stage] = began().slice(0, -1);
      }
      state.ends[state.stage] = Object.fromEntries(Object.entries(ends()).filter(([n]) => !tapped.includes(Number(n))));
      pressedAt = -1e9;
      save();
    } else if (shown() > 0) {
      looking = Math.min(shown(), stage().steps.length) - 1;
    }
    draw();
  });
  const kind = button('small', '', () => {
    state.rehearsal = !state.rehearsal;
    save();
    nameKind();
    draw();
  });
  const nameKind = () => {
    kind.textContent = state.rehearsal ? 'With glue instead' : 'Rehearse dry';
  };
  if (!works) {
    state.rehearsal = true;
  }
  nameKind();
  const again = button('small', 'Start over', () => {
    state.began[state.stage] = [];
    state.ends[state.stage] = {};
    state.notes[state.stage] = {};
    looking = null;
    urgency = '';
    save();
    draw();
  });
  const list = button('small', '', () => {
    listed = !listed;
    draw();
  });
  const tried = button('small', 'Sound', () => alarm(1));
  const called = button('small', 'Called away', () => {
    const notes = state.notes[state.stage] || (state.notes[state.stage] = {});
    notes[Math.max(0, running())] = 'called away';
    face.called.textContent = 'The clock keeps running: glue does not pause.';
    save();
    draw();
  });
  const log = element('pre', '');
  log.tabIndex = 0;
  const details = element('details', '');
  const copy = button('small', 'Copy', async () => {
    getSelection().selectAllChildren(log);  // for where the clipboard is not offered
    try {
      await navigator.clipboard.writeText(log.textContent);
    } catch (error) { /* selected, so that a long press copies it */ }
  });
  const keep = button('small', 'Save as a file', () => {
    const link = document.createElement('a');
    link.href = URL.createObjectURL(new Blob([log.textContent], { type: 'text/tab-separated-values' }));
    link.download = 'bench.tsv';
    link.click();
    URL.revokeObjectURL(link.href);
  });
  details.append(
    element('summary', '', 'Times so far'),
    element('p', '', 'Learn from them: glueup rehearse JOB --log bench.tsv --learn'),
    log,
    keep,
    copy,
  );
  const rescue = element('details', '');
  const advice = document.querySelector('.rescue ul');
  if (advice) {
    rescue.append(element('summary', '', 'Going wrong?'), advice.cloneNode(true));
  }

  const tools = element('p', 'tools');
  tools.append(kind, again, called, list, tried);
  const voiceLabel = element('label', 'tool');
  const voiceBox = document.createElement('input');
  voiceBox.type = 'checkbox';
  voiceBox.checked = state.voice;
  voiceBox.addEventListener('change', () => {
    state.voice = voiceBox.checked;
    save();
    say(face.now.textContent);
  });
  voiceLabel.append(voiceBox, 'Say each step');
  tools.append(voiceLabel);
  const offerVoice = () => {
    voiceLabel.hidden = !ownVoice();
  };
  offerVoice();
  if (window.speechSynthesis) {
    speechSynthesis.addEventListener('voiceschanged', offerVoice);  // the list may come late
  }
  if (stages.length > 1) {
    const label = element('label', 'tool', 'Stage ');
    pick = document.createElement('select');
    stages.forEach((each, index) => pick.append(new Option(each.n, String(index))));
    pick.value = String(state.stage);
    pick.addEventListener('change', () => {
      state.stage = Number(pick.value);
      urgency = '';
      save();
      draw();
    });
    label.append(pick);
    tools.append(label);
  }
  const bar = element('div', 'bar-buttons');
  bar.append(back, go);
  // What must stay in sight while the pictures are looked at; the rest scrolls away.
  const inSight = element('div', 'in-sight');
  const head = element('div', 'head');
  head.append(face.left, ring);
  inSight.append(face.mode, head, bars, picture, face.key, face.now, marks, face.next, face.pace, face.apart);
  // Anywhere is Next, as gloves don't aim, but for what has a button of its own.
  inSight.addEventListener('click', (event) => {
    const own = event.target.closest('button') || picture.classList.contains('lanes');
    if (!own && document.body.classList.contains('run')) forward();
  });
  const more = element('div', 'more');
  more.append(face.planned, face.called, face.awake, tools, rescue, details, face.spoken);
  clock.append(inSight, more);
  clock.hidden = false;
  document.querySelector('main').append(bar);
  document.addEventListener('visibilitychange', () => {
    draw();
    stayAwake();
  });
  setInterval(draw, 500);
  draw();
  stayAwake();
})();
