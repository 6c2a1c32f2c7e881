// The plan pane: each change is planned by a worker of its own; the last answer stays until the next.
class Planning {
  constructor(module, source, told) {
    Object.assign(this, { module, told, worker: null, number: 0, answer: null });
    this.url = URL.createObjectURL(new Blob([source], { type: 'text/javascript' }));
  }

  start(question) {
    this.stop();
    this.number += 1;
    const number = this.number;
    this.worker = new Worker(this.url);
    this.worker.onmessage = ({ data: { what, value } }) => this.heard(number, what, value);
    this.worker.onerror = () => this.heard(number, 'fault', 'the planner could not start here');
    this.worker.postMessage({ module: this.module, number, view: '', ...question });
    if (!question.view) {
      this.told('busy');
    }
  }
  heard(number, what, value) {
    if (number !== this.number) {
      return;
    }
    if (what !== 'picture') {
      this.stop();
    }
    if (what === 'plan' && value.text) {
      this.answer = value;
    }
    this.told(what, value);
  }
  get busy() { return this.worker !== null; }
  stop() {
    if (this.worker) {
      this.worker.terminate();
      this.worker = null;
    }
  }
}

const VERDICT = { 0: 'go', 1: 'stop', 2: 'stop', 3: 'stop' };

const planPane = (planning, desk) => {
  const views = find('views');
  const banner = find('verdict'), frame = find('sheet'), text = find('view'), busy = find('busy'), stop = find('stop');
  const say = (kind, words) => {
    banner.className = kind;
    banner.textContent = words;
  };
  const rest = () => {
    busy.textContent = '';
    stop.hidden = true;
  };
  const shows = {
    busy() {
      busy.textContent = 'Planning …';
      stop.hidden = false;
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
      if (views.value !== 'sheet') {
        views.dispatchEvent(new Event('change'));
      }
      document.title = `${first.replace(/^([A-Z' ]+):.*/, '$1')} – glueup`;
    },
    view(words) {
      rest();
      text.textContent = words;
    },
    fault(reason) {
      rest();
      const full = /memory|bad_alloc|out of bounds/i.test(reason);
      say('stop', `${full ? 'This work is too much for this browser\'s memory' : 'A program fault stopped the planner'} (${reason}). What you typed is safe; the last plan stays.`);
    },
  };
  planning.told = (what, value) => shows[what](value);
  stop.addEventListener('click', () => {
    planning.stop();
    rest();
  });

  // The sheet, or one of the texts beside it.
  views.addEventListener('change', () => {
    const view = views.value, { answer } = planning;
    frame.hidden = view !== 'sheet';
    text.hidden = view === 'sheet';
    if (view === 'text') {
      text.textContent = answer ? answer.text : '';
    } else if (view !== 'sheet') {
      text.textContent = 'Working it out …';
      planning.start({ ...desk.texts, meshes: desk.meshes, view, jobs: desk.jobs });
    }
  });

  const save = (ending, type, what) => () => {
    if (planning.answer) {
      download(`${desk.job}.${ending}`, planning.answer[what], type);
    }
  };
  find('save-sheet').addEventListener('click', save('html', 'text/html', 'sheet'));
  find('save-text').addEventListener('click', save('txt', 'text/plain', 'text'));
  find('save-json').addEventListener('click', save('json', 'application/json', 'json'));
  // In a frame of its own whose scripts are off, so that the page may ask it to print.
  find('print').addEventListener('click', () => {
    const { answer } = planning;
    if (!answer) {
      return;
    }
    const paper = make('iframe', { sandbox: 'allow-same-origin allow-modals', class: 'paper', title: 'For the printer' });
    paper.srcdoc = answer.sheet;
    paper.addEventListener('load', () => {
      paper.contentWindow.print();
      setTimeout(() => paper.remove(), 60000);
    });
    document.body.append(paper);
  });
};
