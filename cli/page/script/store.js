// What stays in this browser between visits, unless somebody switches that off or the browser allows none.
const STORE = 'glueup page';

// As it lies there; nothing where there is none, or the browser refuses.
const stored = () => {
  try {
    return localStorage.getItem(STORE);
  } catch (error) {
    return null;
  }
};
// Other pages may have written there.
const holds = (all, name) => Boolean(all) && typeof all === 'object' && Object.hasOwn(all, name) &&
  Object.values(all).every((text) => typeof text === 'string');
const parsed = (text) => {
  try {
    const state = JSON.parse(text);
    return state && holds(state.jobs, state.job) && holds(state.shops, state.shop) ? state : null;
  } catch (error) {
    return null;
  }
};
// Why it isn't kept, in a sentence; empty where it is, or isn't wanted.
const kept = (text) => {
  try {
    if (text === null) {
      localStorage.removeItem(STORE);
    } else {
      localStorage.setItem(STORE, text);
    }
    return '';
  } catch (error) {
    const full = error.name === 'QuotaExceededError' && stored() !== null;
    return full ? 'This browser’s storage is full: the last changes aren’t kept. Save all jobs and shops (under About), then remove some.'
      : 'This browser keeps nothing: save your files.';
  }
};

// Texts by name, changed here and in another tab since both had `base`. Of one changed in both, both stay.
const joined = (base, mine, theirs) => {
  const all = {};
  for (const name of new Set([...Object.keys(theirs), ...Object.keys(mine)])) {
    const here = mine[name] !== base[name], there = theirs[name] !== base[name];
    const text = here && (mine[name] !== undefined || !there) ? mine[name] : theirs[name];
    if (text !== undefined) {
      all[name] = text;
    }
    if (here && there && text !== theirs[name] && theirs[name] !== undefined) {
      all[freeName(`${name}, other tab`, { ...mine, ...theirs, ...all })] = theirs[name];
    }
  }
  return all;
};
const added = (base, theirs) => Object.fromEntries(Object.entries(theirs).filter(([name]) => !(name in base)));
const freeName = (name, all) => {
  let free = name;
  for (let n = 2; free in all; n += 1) {
    free = `${name} ${n}`;
  }
  return free;
};

// The texts on the desk, their history, and all others kept beside them by name.
class Desk {
  constructor(fresh) {
    this.raw = stored();  // as this tab last read or wrote it
    Object.assign(this, fresh, parsed(this.raw) || {}, { notKept: '', met: '' });
    this.base = this.snapshot();
    this.past = [];
    this.future = [];
    this.meshes = [];  // too large to keep
  }

  get texts() { return { job: this.jobs[this.job], shop: this.shops[this.shop] }; }

  // which: 'job' or 'shop'. Typing on in one field is one change.
  change(which, text, field = '') {
    if (text === this.texts[which]) {
      return;
    }
    const last = this.past[this.past.length - 1];
    if (!field || !last || last.field !== field || this.future.length > 0) {
      this.past.push({ ...this.snapshot(), field });
      this.past.splice(0, Math.max(0, this.past.length - 500));
    }
    this.future = [];
    this[`${which}s`][this[which]] = text;
    this.keepAll();
  }
  // Another file of its kind on the desk: one that is there, or, with a text, a new one.
  turnTo(which, name, text) {
    this.past.push(this.snapshot());
    this.future = [];
    const all = this[`${which}s`];
    const free = text === undefined ? name : freeName(name, all);
    if (text !== undefined) {
      all[free] = text;
    }
    this[which] = free;
    this.keepAll();
  }
  drop(which) {
    const all = this[`${which}s`];
    if (Object.keys(all).length > 1) {
      this.past.push(this.snapshot());
      delete all[this[which]];
      [this[which]] = Object.keys(all);
    }
    this.keepAll();
  }

  snapshot() {
    return { job: this.job, shop: this.shop, jobs: { ...this.jobs }, shops: { ...this.shops } };
  }
  step(from, to) {
    if (from.length > 0) {
      to.push(this.snapshot());
      const { job, shop, jobs, shops } = from.pop();
      Object.assign(this, { job, shop, jobs, shops });
      this.keepAll();
    }
  }
  undo() { this.step(this.past, this.future); }
  redo() { this.step(this.future, this.past); }

  // What another tab kept meanwhile comes in; what it changed on this desk, undo brings back.
  meet() {
    const raw = stored(), theirs = parsed(raw);
    if (raw === this.raw || !theirs) {
      return;
    }
    const mine = this.snapshot(), { base, texts } = this;
    for (const which of ['job', 'shop']) {
      const all = `${which}s`, both = joined(base[all], mine[all], theirs[all]);
      this[all] = { [this[which]]: texts[which], ...both };  // what is on the desk stays, though removed there
      const copy = Object.keys(both).find((name) => !(name in mine[all]) && !(name in theirs[all]));
      this.met = copy ? `Another tab changed this as well: its text is kept as ${copy}.` : this.met;
    }
    if (this.texts.job !== texts.job || this.texts.shop !== texts.shop) {
      this.past.push(mine);
      this.future = [];
      this.met = 'Another tab changed what stands here; Undo brings yours back.';
    }
    // Undo here takes away nothing that came from there.
    for (const then of [...this.past, ...this.future]) {
      then.jobs = { ...added(base.jobs, theirs.jobs), ...then.jobs };
      then.shops = { ...added(base.shops, theirs.shops), ...then.shops };
    }
    Object.assign(this, { raw, base: { jobs: theirs.jobs, shops: theirs.shops } });
  }
  keepAll() {
    this.met = '';
    if (this.keep) {
      this.meet();
    }
    const { keep, uk, units, paper } = this;
    const text = keep ? JSON.stringify({ ...this.snapshot(), keep, uk, units, paper }) : null;
    this.notKept = kept(text);
    if (!this.notKept) {
      Object.assign(this, { raw: text, base: this.snapshot() });
    }
  }
}
