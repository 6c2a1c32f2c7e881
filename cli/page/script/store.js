// What stays in this browser between visits, unless somebody switches that off or the browser allows none.
const STORE = 'glueup page';

const loaded = () => {
  try {
    return JSON.parse(localStorage.getItem(STORE)) || {};
  } catch (error) {
    return {};
  }
};
// Other pages may have written there.
const holds = (all, name) => Boolean(all) && typeof all === 'object' && Object.hasOwn(all, name) &&
  Object.values(all).every((text) => typeof text === 'string');
// True where it is kept.
const kept = (state) => {
  try {
    if (state.keep) {
      localStorage.setItem(STORE, JSON.stringify(state));
    } else {
      localStorage.removeItem(STORE);
    }
    return state.keep;
  } catch (error) {
    return false;
  }
};

// The texts on the desk, their history, and all others kept beside them by name.
class Desk {
  constructor(fresh) {
    const old = loaded();
    const whole = holds(old.jobs, old.job) && holds(old.shops, old.shop);
    Object.assign(this, fresh, whole ? old : {});
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
    let free = name;
    for (let n = 2; text !== undefined && free in all; n += 1) {
      free = `${name} ${n}`;
    }
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

  keepAll() {
    const { keep, uk, units, paper } = this;
    this.isKept = kept({ ...this.snapshot(), keep, uk, units, paper });
  }
}
