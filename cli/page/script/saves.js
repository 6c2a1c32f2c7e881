// What of the plan goes onto the disk or the printer.
const savesOf = (planning, desk) => {
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

// When to come back, for a calendar: from the day and time asked here, first of all tomorrow at nine.
const calendarOf = (module, source, desk) => {
  const aside = new Planning(module, source), begin = find('begin'), told = find('calendar-told');
  const tomorrow = new Date(Date.now() + 864e5 - new Date().getTimezoneOffset() * 6e4).toISOString();
  begin.value = `${tomorrow.slice(0, 10)}T09:00`;
  aside.told = (what, value) => {
    told.textContent = what !== 'view' ? faultSaid(value) : value ? '' : 'The files need mending first: see Work and Shop.';
    if (what === 'view' && value) {
      download(`${desk.job}.ics`, value, 'text/calendar');
    }
  };
  find('save-calendar').addEventListener('click', () => {
    const minutes = begin.valueAsNumber / 60000;  // of the clock on the wall, since 1970
    const asked = begin.validity.valid && !Number.isNaN(minutes);
    told.textContent = asked ? 'Working it out …' : 'A calendar needs a day and a time.';
    if (asked) {
      aside.start({ ...desk.texts, meshes: desk.meshes, view: 'calendar', minutes: String(minutes) });
    }
  });
};
