// The clock of the bench sheet. It reads the steps and limits that the page shows, keeps the instant at
// which each step began, and never counts ticks: a locked phone or a reload loses nothing.
// Sections: what the page says, what is remembered, time, alarm and voice, drawing, the buttons.
'use strict';
(() => {
  const stages = [...document.querySelectorAll('section.stage')].map((section) => ({
    section,
    pullApartBy: Number(section.dataset.pullApartBy),
    clampTime: Number(section.dataset.clampTime),
    steps: [...section.querySelectorAll('.steps li')].map((li) => ({
      li,
      n: Number(li.dataset.n),
      last: Number(li.dataset.last),  // a line may stand for several steps of the plan
      start: Number(li.dataset.start),
      end: Number(li.dataset.end),
      starts: li.dataset.steps.split(' ').map(Number),  // of each of them
      text: li.querySelector('.say').textContent,
    })),
    joints: [...section.querySelectorAll('tr[data-joint]')].map((tr) => ({
      name: tr.dataset.joint,
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
    notes: saved.notes || {},   // stage -> notes by step index
    ticks: saved.ticks || {},
    voice: saved.voice || false,
  };
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
    planned: element('p', 'planned'),
    now: element('p', 'now'),
    next: element('p', 'next'),
    left: element('p', 'left'),
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
  const beganAt = (n) => (lineOf(n) < 0 ? null : lineBegan(lineOf(n)));
  const endedAt = (n) => (lineOf(n) < 0 ? null : lineBegan(lineOf(n) + 1));

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
          worst = { name: joint.name, left };
        }
      }
    }
    return worst && { ...worst, used };
  };
  // After this, a joint that is spread is past its open time.
  const lastMoment = () => {
    const wet = stage().joints
      .filter((joint) => beganAt(joint.spread) !== null && endedAt(joint.join) === null)
      .map((joint) => beganAt(joint.spread) + joint.open);
    return wet.length > 0 ? Math.min(...wet) : stage().pullApartBy;
  };

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
    if (word !== urgency) {
      urgency = word;
      if (word) {
        alarm(word === 'over' ? 3 : 1);
        say(face.left.textContent);
      }
    }
  };

  const moreStages = () => state.stage + 1 < stages.length;
  const restText = (now) => {
    const left = lineBegan(running()) + stage().clampTime - now;
    return left > 0 ? `All tight. Leave it in the clamps: off in ${minutes(left)}.` : 'The clamps may come off.';
  };

  const unticked = () => {
    const open = document.querySelectorAll('input[data-key]:not(:checked)').length;
    return open > 0 ? ` Not ticked on the lists above: ${open}.` : '';
  };

  const draw = () => {
    const { steps } = stage();
    const at = running();
    const now = at < 0 ? 0 : (Date.now() - began()[0]) / 1000;
    const current = steps[at];
    face.now.textContent = at < 0 ? `Press Start with the first stroke of glue.${unticked()}`
      : finished() ? restText(now) : `${current.n}. ${current.text}`;
    const following = steps[at + 1];
    face.next.textContent = following ? `Then: ${following.text}` : '';
    face.planned.textContent = at < 0 ? '' : finished() ? `Done in ${minutes((began()[at] - began()[0]) / 1000)}.`
      : `${minutes(now)} gone; this step was planned for ${minutes(current.start)} to ${minutes(current.end)}.`;
    const last = lastMoment();
    face.apart.textContent = finished() ? ''
      : now < last ? `Pull apart by ${minutes(last)}${at < 0 ? '' : `, in ${minutes(last - now)}`}.`
        : `It had to be pulled apart by ${minutes(last)}.`;
    showLeft(now);
    steps.forEach((step, index) => {
      step.li.classList.toggle('done', index < at);
      if (index === at) {
        step.li.setAttribute('aria-current', 'step');
      } else {
        step.li.removeAttribute('aria-current');
      }
    });
    go.textContent = at < 0 ? 'Start' : at + 1 < steps.length ? 'Next step'
      : !finished() ? 'All tight' : moreStages() ? `On to stage ${state.stage + 2}` : 'Done';
    go.disabled = finished() && !moreStages();
    back.disabled = at < 0;
    called.hidden = at < 0 || finished();
    const text = logText();
    if (log.textContent !== text) {  // else what is selected to be copied stays so
      log.textContent = text;
    }
  };

  // One line a step of the plan: number, planned start and end, real start and end in seconds, note.
  // Steps told as one share its time as they were planned to.
  const logText = () => stages.flatMap((each, which) => {
    const times = state.began[which] || [];
    const real = (i) => (times[i] - times[0]) / 1000;
    return each.steps.slice(0, times.length).flatMap((step, index) => {
      const bounds = [...step.starts, step.end];
      const share = (k) => (bounds[k] - step.start) / Math.max(1, step.end - step.start);
      const at = (k) => (k === 0 ? real(index).toFixed(0) : index + 1 >= times.length ? ''
        : (real(index) + share(k) * (real(index + 1) - real(index))).toFixed(0));
      const note = (state.notes[which] || {})[index] || '';
      return step.starts.map((start, k) => [step.n + k, start, bounds[k + 1], at(k), at(k + 1), note].join('\t'));
    });
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
    if (wake && finished()) {
      wake.release();
      wake = null;
    }
  };
  let pick = null;  // of several stages
  const go = button('go', 'Start', () => {
    if (finished()) {
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
    face.called.textContent = '';
    save();
    draw();
    say(face.now.textContent);
    stayAwake();
    letSleep();
    if (running() === 0) {
      face.left.scrollIntoView();
    }
  });
  const back = button('', 'Back', () => {
    state.began[state.stage] = began().slice(0, -1);
    save();
    draw();
  });
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
  details.append(
    element('summary', '', 'Times so far'),
    element('p', '', 'Save them as a file and learn from them: glueup rehearse JOB --log FILE --learn'),
    log,
    copy,
  );
  const rescue = element('details', '');
  const advice = document.querySelector('.rescue ul');
  if (advice) {
    rescue.append(element('summary', '', 'Going wrong?'), advice.cloneNode(true));
  }

  const tools = element('p', '');
  tools.append(called);
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
    stages.forEach((each, index) => pick.append(new Option(String(index + 1), String(index))));
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
  inSight.append(face.left, face.now, face.next, face.apart);
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
  if (running() >= 0 && !finished()) {
    face.left.scrollIntoView();
  }
})();
