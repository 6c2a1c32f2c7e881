// The panes of work and shop: a form and the text below it, of one file.
const filePane = (which, { core, desk, schema, choices, changed }) => {
  const text = find(`${which}-text`), list = find(`${which}-mistakes`);
  const put = ([what, ...rest]) => {
    const made = core.ask(what, desk.texts[which], ...rest);
    if (made.status === 0 && made.texts.length > 0) {
      desk.change(which, made.texts[0], what === 'set' ? rest.slice(2).join('.') : '');
      changed();
    } else if (what !== 'remove') {  // what isn't there is gone already
      list.replaceChildren(make('li', {}, 'That can’t be put into the text as it stands. Mend the text first.'));
    }
  };
  const form = new Form(find(`${which}-form`), schema, put, choices, () => desk.uk);
  text.addEventListener('input', () => {
    desk.change(which, text.value, 'text');
    changed();
  });

  const goTo = (line) => {
    const lines = text.value.split('\n');
    const at = lines.slice(0, line - 1).join('\n').length + (line > 1 ? 1 : 0);
    find(`${which}-as-text`).open = true;
    text.focus();
    text.setSelectionRange(at, at + (lines[line - 1] || '').length);
  };
  return {
    show(all) {
      if (text.value !== desk.texts[which]) {
        text.value = desk.texts[which];
      }
      const mine = all.filter((m) => m.file === `${which}.toml`);
      const [file] = core.ask('file', desk.texts[which]).texts;
      const root = file ? JSON.parse(file).root : null;
      const left = form.show(root, mine);
      list.replaceChildren(...left.map((m) => make('li', { class: m.severity }, ...(m.line > 0 ? [make('button', {
        type: 'button', class: 'line', on: { click: () => goTo(m.line) },
      }, `Line ${m.line}`), ' '] : []), `${m.message}${m.remedy ? `: ${m.remedy}` : ''}`)));
    },
  };
};

// The files kept beside: choose one, another from a starter, out of and into the disk.
const shelf = (which, { core, desk, kinds, changed }) => {
  const names = find(`${which}-names`), kind = find(`${which}-kinds`);
  if (kind) {
    kind.append(...kinds.map((k) => make('option', { value: k }, `a ${spoken(k)}`)));
  }
  names.addEventListener('change', () => {
    desk.turnTo(which, names.value);
    changed();
  });
  find(`${which}-new`).addEventListener('click', () => {
    const of = kind ? kind.value : 'shop';
    desk.turnTo(which, of, core.ask('new', of, find('units').value).texts[0]);
    changed();
  });
  find(`${which}-save`).addEventListener('click', () => download(`${desk[which]}.toml`, desk.texts[which]));
  find(`${which}-drop`).addEventListener('click', () => {
    desk.drop(which);
    changed();
  });
  return {
    show() {
      names.replaceChildren(...Object.keys(desk[`${which}s`]).map((name) => make('option', { value: name }, name)));
      names.value = desk[which];
    },
  };
};

// A file from the disk: a job, a shop, a mesh, or all that was exported.
const opened = async (file, core, desk) => {
  const name = file.name.replace(/\.\w+$/, '');
  if (/\.(obj|stl|ply|off)$/i.test(file.name)) {
    desk.meshes = [...desk.meshes.filter((m) => m.name !== file.name), { name: file.name, bytes: new Uint8Array(await file.arrayBuffer()) }];
    if (!desk.texts.job.includes(JSON.stringify(file.name))) {
      desk.turnTo('job', name, `title = ${JSON.stringify(name)}\nunits = "mm"\nspecies = "red_oak"\n\n[mesh]\nfile = ${JSON.stringify(file.name)}\nunits = "mm"\n\n[glue]\nuse = "pva_type2"\n`);
    }
    return;
  }
  const text = await file.text();
  if (/\.json$/i.test(file.name)) {
    const { jobs, shops } = JSON.parse(text);
    Object.entries(jobs).forEach(([n, t]) => desk.turnTo('job', n, String(t)));
    Object.entries(shops).forEach(([n, t]) => desk.turnTo('shop', n, String(t)));
    return;
  }
  const ofShop = /^\s*(\[\[clamp\]\]|people\s*=|temperature\s*=|\[pace\])/m.test(text);
  desk.turnTo(ofShop ? 'shop' : 'job', name, text);
};
