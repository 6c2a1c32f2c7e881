// Plans beside the page, so that typing never waits. A fault is told and ends this worker.
const asked = ({ job, shop, meshes, paper, view, jobs, minutes }, core, post) => {
  const beside = meshes.flatMap(({ name, bytes }) => [name, bytes]);
  if (view) {
    const [text] = core.ask(...(view === 'rack' ? ['rack', shop, ...Object.entries(jobs).flat()]
      : view === 'calendar' ? ['calendar', minutes, job, shop, ...beside] : ['view', view, job, shop, ...beside])).texts;
    post('view', text);
    return;
  }
  post('picture', core.ask('picture', job, shop, ...beside).texts[0]);
  // The first is all there is, unless its search was cut short.
  for (const how of ['first', 'plan']) {
    const { status, texts: [text, sheet, json, told, picture, stopped] } = core.ask(how, paper, job, shop, ...beside);
    post(stopped ? 'first' : 'plan', { status, text, sheet, json, told, picture });
    if (!stopped) {
      return;
    }
  }
};

// A lock held for as long as this worker lives, where the browser has locks: so the page sees its end. Done once
// it is held: while the core plans, nothing of it would come through.
const hold = (life, post) => new Promise((done) => {
  if (!navigator.locks) {
    done();
    return;
  }
  navigator.locks.request(life, () => {
    post('alive');
    done();
    return new Promise(() => {});
  }).catch(done);
});

onmessage = async ({ data }) => {
  const post = (what, value) => postMessage({ what, value });
  await hold(data.life, post);
  try {
    asked(data, await openCore(data.module), post);
  } catch (fault) {
    post('fault', fault.message);
  }
};
