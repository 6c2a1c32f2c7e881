// The planner itself, from its WebAssembly: texts in, texts out. For the page, its worker and the tests.
const openCore = async (module) => {
  const said = [];
  let memory;
  const system = {
    // What it says before it ends itself: the reason.
    fd_write(fd, parts, count, written) {
      const view = new DataView(memory.buffer);
      let sum = 0;
      for (let i = 0; i < count; i += 1) {
        const at = view.getUint32(parts + 8 * i, true), size = view.getUint32(parts + 8 * i + 4, true);
        said.push(new TextDecoder().decode(new Uint8Array(memory.buffer, at, size)));
        sum += size;
      }
      view.setUint32(written, sum, true);
      return 0;
    },
  };
  const NOT_HERE = 52;
  const imports = {};
  for (const { module: from, name } of WebAssembly.Module.imports(module)) {
    imports[from] = imports[from] || {};
    imports[from][name] = system[name] || (() => NOT_HERE);
  }
  const { exports } = await WebAssembly.instantiate(module, imports);
  memory = exports.memory;
  exports._initialize();

  const give = (text) => {
    const bytes = typeof text === 'string' ? new TextEncoder().encode(text) : text;
    const at = exports.reserve(Math.max(1, bytes.length));
    if (at === 0) {
      throw new Error('out of memory');
    }
    new Uint8Array(memory.buffer).set(bytes, at);
    exports.give(at, bytes.length);
  };
  const read = (i) => new TextDecoder('utf-8', { ignoreBOM: true }).decode(
    new Uint8Array(memory.buffer, exports.text_at(i), exports.text_size(i)));

  // A fault ends this core: open another.
  const ask = (...texts) => {
    try {
      texts.forEach(give);
      const status = exports.ask();
      return { status, texts: Array.from({ length: exports.texts() }, (_, i) => read(i)) };
    } catch (fault) {
      throw new Error(said.join('').trim() || fault.message);
    }
  };
  return { ask };
};
