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

// Held for as long as this worker lives, where the browser has locks: so the page sees its end.
const hold = (life, post) => {
  if (navigator.locks) {
    navigator.locks.request(life, () => {
      post('alive');
      return new Promise(() => {});
    }).catch(() => {});
  }
};

onmessage = async ({ data }) => {
  const post = (what, value) => postMessage({ what, value });
  hold(data.life, post);
  try {
    asked(data, await openCore(data.module), post);
  } catch (fault) {
    post('fault', fault.message);
  }
};
