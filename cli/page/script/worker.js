// Plans beside the page, so that typing never waits. Each answer carries the number of its question; a
// fault is told and ends this worker.
onmessage = async ({ data: { module, number, job, shop, meshes, paper, view, jobs } }) => {
  const core = await openCore(module);
  const beside = meshes.flatMap(({ name, bytes }) => [name, bytes]);
  const post = (what, value) => postMessage({ number, what, value });
  try {
    if (view === 'rack') {
      post('view', core.ask('rack', shop, ...Object.entries(jobs).flat()).texts[0]);
      return;
    }
    if (view) {
      post('view', core.ask('view', view, job, shop, ...beside).texts[0]);
      return;
    }
    post('picture', core.ask('picture', job, shop, ...beside).texts[0]);
    const { status, texts: [text, sheet, json, told, picture] } = core.ask('plan', paper, job, shop, ...beside);
    post('plan', { status, text, sheet, json, told, picture });
  } catch (fault) {
    post('fault', fault.message);
  }
};
