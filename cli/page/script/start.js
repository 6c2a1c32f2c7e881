// Opens the core and puts the panes together.
const json = (id) => JSON.parse(find(id).textContent);

const CHOICES = [  // which fields name something of a table
  [/^(\w+_)?species$/, 'woods'], [/^(family|use)$/, 'glues'], [/^kind$/, 'clamps'],
];
const choicesOf = (core, desk) => {
  const tables = new Map();
  const rows = (name) => {
    if (!tables.has(name)) {
      const [table] = core.ask('table', name).texts;
      tables.set(name, table ? JSON.parse(table).rows.map(({ id, name: its }) => [id, its]) : []);
    }
    return tables.get(name);
  };
  return (path) => {
    const key = path[path.length - 1];
    const [, table] = CHOICES.find(([pattern]) => pattern.test(key)) || [];
    if (!table || (key === 'kind' && path[0] === 'part') || path.includes('cut')) {
      return null;
    }
    const bottles = key === 'use' ? [...desk.texts.shop.matchAll(/^\s*name\s*=\s*"([^"]*)"/gm)].map(([, n]) => [n, `${n} (yours)`]) : [];
    return [...bottles, ...rows(table)];
  };
};

const tabs = () => {
  const all = [...document.querySelectorAll('nav button')];
  const turn = (to) => {
    document.body.dataset.pane = to;
    all.forEach((button) => button.setAttribute('aria-pressed', String(button.dataset.to === to)));
  };
  all.forEach((button) => button.addEventListener('click', () => {
    turn(button.dataset.to);
    find(`${button.dataset.to}-title`).focus();  // the next Tab goes into the pane
  }));
  turn('plan');
};

// A phone's keyboard takes half of the screen: the field it is for stays in what is left.
const inSight = () => visualViewport.addEventListener('resize', () => {
  const field = document.activeElement.closest('.field');
  if (field) {
    field.scrollIntoView({ block: 'nearest' });
  }
});

const settings = (desk, changed) => {
  const keep = find('keep'), uk = find('uk'), units = find('units'), paper = find('paper');
  keep.checked = desk.keep;
  uk.checked = desk.uk;
  units.value = desk.units;
  paper.value = desk.paper;
  keep.addEventListener('change', () => {
    desk.keep = keep.checked;
    desk.keepAll();
    changed();
  });
  uk.addEventListener('change', () => {
    desk.uk = uk.checked;
    desk.keepAll();
    changed();
  });
  units.addEventListener('change', () => {
    desk.units = units.value;
    desk.keepAll();
  });
  paper.addEventListener('change', () => {
    desk.paper = paper.value;
    desk.keepAll();
    changed();
  });
  find('undo').addEventListener('click', () => {
    desk.undo();
    changed();
  });
  find('redo').addEventListener('click', () => {
    desk.redo();
    changed();
  });
  find('export').addEventListener('click', () => {
    const { jobs, shops } = desk;
    download('glueup.json', `${JSON.stringify({ jobs, shops }, null, 1)}\n`, 'application/json');
  });
};

const files = (core, desk, changed) => {
  const take = async (list) => {
    for (const file of list) {
      try {
        await opened(file, core, desk);
      } catch (error) {
        find('job-mistakes').replaceChildren(make('li', {}, `${file.name} could not be read: ${error.message}`));
        return;
      }
    }
    changed();
  };
  find('open').addEventListener('change', ({ target }) => take([...target.files]).then(() => { target.value = ''; }));
  // Over the sheet too: its frame would open the file in place of the page.
  const dragged = (over) => (event) => {
    event.preventDefault();
    document.body.classList.toggle('dragged', over);
  };
  document.addEventListener('dragenter', dragged(true));
  document.addEventListener('dragover', dragged(true));
  document.addEventListener('dragleave', (event) => dragged(event.relatedTarget !== null)(event));
  document.addEventListener('drop', (event) => {
    dragged(false)(event);
    take([...event.dataTransfer.files]);
  });
};

const started = (core, module, source) => {
  const examples = json('examples');
  const desk = new Desk({
    jobs: { 'hive-tool chest': examples.job }, shops: { 'my shop': examples.shop },
    job: 'hive-tool chest', shop: 'my shop', keep: true, uk: /^en-(GB|AU|NZ|IE)/.test(navigator.language), units: 'in',
    paper: /^en-(US|CA)|^es-MX|^fr-CA/.test(navigator.language) ? 'letter' : 'a4',
  });
  const planning = new Planning(module, source);
  savesOf(planning, desk);
  calendarOf(module, source, desk);
  viewsPane(planning, new Planning(module, source), desk);
  const kinds = core.ask('kinds').texts.filter((kind) => kind !== 'shop');
  const plan = debounced(() => planning.start({ ...desk.texts, meshes: desk.meshes, paper: desk.paper }), 250);
  const show = [];
  const changed = () => {
    const beside = desk.meshes.flatMap(({ name, bytes }) => [name, bytes]);
    const { texts: [told], fault } = core.ask('mistakes', desk.texts.job, desk.texts.shop, ...beside);
    const { errors } = told ? JSON.parse(told)
      : { errors: [{ file: 'job.toml', line: 1, severity: 'error', message: `the files can’t be read here (${fault})` }] };
    show.forEach((pane) => pane.show(errors));
    find('undo').disabled = desk.past.length === 0;
    find('redo').disabled = desk.future.length === 0;
    find('keep').checked = desk.keep;
    find('kept').textContent = desk.notKept || desk.met;
    plan();
  };
  const choices = choicesOf(core, desk);
  for (const which of ['job', 'shop']) {
    show.push(filePane(which, { core, desk, schema: json(`${which}-schema`), choices, changed }));
    show.push(shelf(which, { core, desk, kinds, changed }));
  }
  planPane(planning, changed);
  settings(desk, changed);
  files(core, desk, changed);
  addEventListener('storage', ({ key, newValue }) => {
    if (key === STORE && desk.keep) {
      desk.keep = newValue !== null;  // switched off there is switched off here
      desk.meet();
      changed();
    }
  });
  // Not without a word, where nothing else has it.
  addEventListener('beforeunload', (event) => {
    if (desk.notKept && desk.past.length > 0) {
      event.preventDefault();
    }
  });
  changed();
};

// The main page's core too ends with a fault: then another is opened, and the question asked again.
const lasting = async (module) => {
  let core = await openCore(module), next = await openCore(module);
  return {
    ask(...texts) {
      try {
        return core.ask(...texts);
      } catch (fault) {
        core = next;
        openCore(module).then((fresh) => { next = fresh; });
        return { status: 2, texts: [], fault: fault.message };
      }
    },
  };
};

const start = async () => {
  tabs();
  inSight();
  find('notices-shown').addEventListener('toggle', async ({ target }) => {
    const place = find('notices-text');
    if (target.open && !place.textContent) {
      place.textContent = new TextDecoder().decode(await unpacked('notices'));
    }
  });
  try {
    const module = await WebAssembly.compile(await unpacked('core'));
    started(await lasting(module), module, find('worker').textContent);
    document.body.dataset.ready = 'yes';
    keepOffline();
  } catch (error) {
    find('verdict').textContent = `This browser can’t run the planner (${error.message}). Any browser from 2023 on can.`;
  }
};
// Whatever else goes wrong: said, and the page stays as it is.
const fallen = ({ error, reason, message }) => {
  const its = error || reason;
  find('verdict').className = 'stop';
  find('verdict').textContent = `A fault in this page (${(its && its.message) || message}). What you typed stands here still; loading it again may help.`;
};
addEventListener('error', fallen);
addEventListener('unhandledrejection', fallen);
start();
