// The plan pane: each change is planned by a worker of its own, which may answer twice, soon and then better; the
// last answer stays until the next.
class Planning {
  constructor(module, source) {
    Object.assign(this, { module, told: () => {}, worker: null, answer: null });
    this.url = URL.createObjectURL(new Blob([source], { type: 'text/javascript' }));
  }

  start(question) {
    this.stop();
    const worker = new Worker(this.url), life = `glueup ${Date.now()} ${Math.random()}`;
    const heard = (what, value) => worker === this.worker && this.heard(what, value);
    worker.onmessage = ({ data: { what, value } }) => {
      if (what === 'alive') {  // it holds this lock until its end
        navigator.locks.request(life, () => heard('ended')).catch(() => {});
      } else {
        heard(what, value);
      }
    };
    worker.onerror = () => heard('fault', 'it could not start here');
    Object.assign(this, { worker, began: Date.now() });
    worker.postMessage({ module: this.module, view: '', life, ...question });
    if (!question.view) {
      this.told('busy', 0);
      this.clock = setInterval(() => this.told('busy', Math.round((Date.now() - this.began) / 1000)), 10000);
    }
  }
  heard(what, value) {
    if (what !== 'picture' && what !== 'first') {
      this.stop();
    }
    if (['first', 'plan'].includes(what) && value.text) {
      this.answer = value;
    }
    this.told(what, value);
  }
  stop() {
    clearInterval(this.clock);
    if (this.worker) {
      this.worker.terminate();
      this.worker = null;
    }
  }
}

const VERDICT = { 0: 'go', 1: 'stop', 2: 'stop', 3: 'stop' };

const faultSaid = (reason) => {
  const why = reason === undefined ? 'The browser ended the planner before it was done'
    : /memory|bad_alloc|out of bounds/i.test(reason) ? `This work is too much for this browser’s memory (${reason})`
      : `A program fault stopped the planner (${reason})`;
  return `${why}. What you typed is safe; the last plan stays.`;
};

// The verdict, and the sheet below it.
const planPane = (planning, again) => {
  const banner = find('verdict'), frame = find('sheet'), busy = find('busy'), stop = find('stop'), retry = find('again');
  const say = (kind, words) => {
    banner.className = kind;
    banner.textContent = words;
  };
  const rest = (halfway) => {
    busy.textContent = '';
    stop.hidden = true;
    retry.hidden = !halfway;
  };
  const failed = (reason) => {
    rest(true);
    say('stop', faultSaid(reason));
  };
  const shows = {
    busy(seconds) {
      busy.textContent = seconds > 0 ? `Planning for ${seconds} s; Stop keeps the last plan` : 'Planning …';
      stop.hidden = false;
      retry.hidden = true;
    },
    picture(svg) {
      const picture = svg && drawn(svg);
      if (picture) {
        find('picture').replaceChildren(picture);
      }
    },
    plan({ status, text: words, sheet, told, picture }) {
      rest();
      find('told').textContent = told;
      if (!words) {
        say('stop', status === 3 ? told.trim() : 'The files need mending first: see Work and Shop. The last plan stays below.');
        return;
      }
      shows.picture(picture);  // with the letters of this plan
      const [first] = words.split('\n');
      say(status === 0 && /^SHORT|tight/i.test(first) ? 'tight' : VERDICT[status], first);
      if (frame.srcdoc !== sheet) {
        frame.srcdoc = sheet;
      }
      if (find('views').value !== 'sheet') {
        find('views').dispatchEvent(new Event('change'));
      }
      document.title = `${first.replace(/^([A-Z' ]+):.*/, '$1')} – glueup`;
    },
    first(answer) {
      if (answer.text) {
        shows.plan(answer);
        busy.textContent = 'A first plan; looking for a better one …';
        stop.hidden = false;
      }
    },
    fault: failed,
    ended: failed,
  };
  planning.told = (what, value) => shows[what](value);
  stop.addEventListener('click', () => {
    planning.stop();
    rest(true);
  });
  retry.addEventListener('click', again);
};

// The sheet, or one of the texts beside it, which a worker of its own works out.
const viewsPane = (planning, aside, desk) => {
  const views = find('views'), text = find('view');
  aside.told = (what, value) => {
    text.textContent = what === 'view' ? value : faultSaid(value);
  };
  views.addEventListener('change', () => {
    const view = views.value, { answer } = planning;
    find('sheet').hidden = view !== 'sheet';
    text.hidden = view === 'sheet';
    if (view === 'text') {
      text.textContent = answer ? answer.text : '';
    } else if (view !== 'sheet') {
      text.textContent = 'Working it out …';
      aside.start({ ...desk.texts, meshes: desk.meshes, view, jobs: desk.jobs });
    }
  });
};
