// The work in three dimensions, to be turned by a finger, a mouse or the arrow keys. Drawn by WebGL where the
// browser has it, and only when asked for; else the pictures stand.
(() => {
  const figure = document.getElementById('turn');
  if (!figure) return;
  const model = JSON.parse(figure.dataset.model);
  const tones = { pale: [0.95, 0.86, 0.67], tan: [0.89, 0.74, 0.52], red: [0.9, 0.67, 0.53], dark: [0.66, 0.5, 0.38],
    glue: [0.48, 0.23, 0], iron: [0.32, 0.32, 0.35], pads: [0.97, 0.97, 0.95], ink: [0.1, 0.09, 0.08] };

  const make = (tag, text, attributes) => {
    const made = document.createElement(tag);
    made.textContent = text;
    Object.entries(attributes || {}).forEach(([name, value]) => made.setAttribute(name, value));
    return made;
  };
  const canvas = make('canvas', '', { tabindex: 0, role: 'img', 'aria-label': 'The work to be turned: drag it, or press the arrow keys' });
  const field = (text, type, on) => {
    const label = make('label', '', { class: `tool ${type}` });
    const input = make('input', '', { type });
    if (type === 'range') Object.assign(input, { min: 0, max: 100, value: on });
    else input.checked = on;
    label.append(input, text);
    input.addEventListener('input', () => draw());
    return [label, input];
  };
  const [apartLabel, apart] = field('Pull apart', 'range', 0);
  const [clampLabel, clamps] = field('Clamps', 'checkbox', false);
  const [glueLabel, glue] = field('Glue', 'checkbox', true);
  const [benchLabel, bench] = field('As it lies on the bench', 'checkbox', false);

  // Normals lie in the triangles: each of their corners has its triangle's own.
  const withNormals = (flat) => {
    const out = new Float32Array(flat.length * 2);
    for (let i = 0; i + 8 < flat.length; i += 9) {
      const [ax, ay, az, bx, by, bz, cx, cy, cz] = flat.slice(i, i + 9);
      const u = [bx - ax, by - ay, bz - az];
      const v = [cx - ax, cy - ay, cz - az];
      const n = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]];
      const size = Math.hypot(...n) || 1;
      for (let k = 0; k < 3; k += 1) {
        out.set(flat.slice(i + 3 * k, i + 3 * k + 3), 2 * i + 6 * k);
        out.set(n.map((each) => each / size), 2 * i + 6 * k + 3);
      }
    }
    return out;
  };

  let gl = null;
  let program = null;
  let pieces = [];  // { buffer, count, tone, lines, off, layer, inside }
  const lo = [1e9, 1e9, 1e9];
  const hi = [-1e9, -1e9, -1e9];
  const begin = () => {
    gl = canvas.getContext('webgl', { antialias: true });
    if (!gl) return false;
    program = gl.createProgram();
    const shader = (type, text) => {
      const made = gl.createShader(type);
      gl.shaderSource(made, text);
      gl.compileShader(made);
      gl.attachShader(program, made);
    };
    // Parallel: rows of `turn` are right, up and nearness; `fit` is the scale across and up.
    shader(gl.VERTEX_SHADER, `attribute vec3 at; attribute vec3 normal; uniform mat3 turn; uniform vec3 middle, off;
      uniform vec2 fit; uniform float deep, lift; varying float light;
      void main() { vec3 p = turn * (at + off - middle); vec3 n = turn * normal;
        light = 0.78 + 0.12 * n.y + 0.06 * n.z - 0.08 * abs(n.x);
        gl_Position = vec4(p.xy * fit, -p.z / deep - lift, 1.0); }`);
    // Told by more than its tone: the inside is hatched.
    shader(gl.FRAGMENT_SHADER, `precision mediump float; uniform vec3 tone; uniform float lines, inside, hatch; varying float light;
      void main() { float stroke = inside > 0.5 && mod(gl_FragCoord.x + gl_FragCoord.y, 8.0 * hatch) < hatch ? 0.72 : 1.0;
        gl_FragColor = vec4(lines > 0.5 ? tone : tone * clamp(light + 0.12, 0.0, 1.0) * stroke, 1.0); }`);
    gl.linkProgram(program);
    const add = (numbers, tone, off, layer, lines, inside) => {
      if (numbers.length === 0) return;
      const buffer = gl.createBuffer();
      gl.bindBuffer(gl.ARRAY_BUFFER, buffer);
      gl.bufferData(gl.ARRAY_BUFFER, lines ? new Float32Array(numbers) : withNormals(numbers), gl.STATIC_DRAW);
      pieces.push({ buffer, count: numbers.length / 3, tone: tones[tone], off, layer, lines, inside });
    };
    pieces = [];
    // Points by their numbers, as a flat list.
    const flat = (mesh, which) => mesh[which].flatMap((n) => mesh.p.slice(3 * n, 3 * n + 3));
    model.parts.forEach((part) => {
      add(flat(part.m, 't'), part.c, part.x, 'part', false);
      add(flat(part.m, 'i'), part.c, part.x, 'part', false, true);
      add(flat(part.m, 's'), 'ink', part.x, 'part', false);
      add(flat(part.m, 'e'), 'ink', part.x, 'part', true);
      add(flat(part.g, 't'), 'glue', part.x, 'glue', false);
      part.m.p.forEach((each, i) => {
        lo[i % 3] = Math.min(lo[i % 3], each);
        hi[i % 3] = Math.max(hi[i % 3], each);
      });
    });
    add(flat(model.iron, 't'), 'iron', [0, 0, 0], 'clamps', false);
    add(flat(model.pads, 't'), 'pads', [0, 0, 0], 'clamps', false);
    return true;
  };

  let round = -0.52;  // radians about the upright, and above the bench
  let above = 0.56;
  const draw = () => {
    if (!gl) return;
    const share = apart.value / 100;
    const wide = canvas.clientWidth * devicePixelRatio;
    const high = canvas.clientHeight * devicePixelRatio;
    if (canvas.width !== wide || canvas.height !== high) Object.assign(canvas, { width: wide, height: high });
    gl.viewport(0, 0, canvas.width, canvas.height);
    gl.clearColor(1, 1, 1, 1);
    gl.clear(gl.COLOR_BUFFER_BIT | gl.DEPTH_BUFFER_BIT);
    gl.enable(gl.DEPTH_TEST);
    gl.useProgram(program);
    // The bench's right, away and up, in the work; then the eye's.
    const own = bench.checked ? model.bench : [1, 0, 0, 0, 1, 0, 0, 0, 1];
    const mix = (a, b, c) => [0, 1, 2].map((i) => a * own[i] + b * own[3 + i] + c * own[6 + i]);
    const [cr, sr, ca, sa] = [Math.cos(round), Math.sin(round), Math.cos(above), Math.sin(above)];
    const right = mix(cr, -sr, 0);
    const near = mix(-sr * ca, -cr * ca, sa);
    const up = mix(sr * sa, cr * sa, ca);
    const rows = [right, up, near];
    const turn = [0, 1, 2].flatMap((column) => rows.map((row) => row[column]));
    const middle = lo.map((low, i) => (low + hi[i]) / 2);
    const pulled = Math.max(0, ...model.parts.map((part) => Math.hypot(...part.x)));
    const radius = Math.hypot(...lo.map((low, i) => hi[i] - low)) / 2 + share * pulled + (clamps.checked ? 900 : 0);
    const set = (name, kind, ...values) => gl[`uniform${kind}`](gl.getUniformLocation(program, name), ...values);
    const least = Math.min(canvas.width, canvas.height);
    set('turn', 'Matrix3fv', false, turn);
    set('middle', '3fv', middle);
    set('fit', '2f', least / canvas.width / radius, least / canvas.height / radius);
    set('deep', '1f', 3 * radius);
    set('hatch', '1f', Math.max(1, devicePixelRatio));
    const at = gl.getAttribLocation(program, 'at');
    const normal = gl.getAttribLocation(program, 'normal');
    for (const piece of pieces) {
      if ((piece.layer === 'glue' && !glue.checked) || (piece.layer === 'clamps' && !clamps.checked)) continue;
      gl.bindBuffer(gl.ARRAY_BUFFER, piece.buffer);
      gl.enableVertexAttribArray(at);
      gl.vertexAttribPointer(at, 3, gl.FLOAT, false, piece.lines ? 12 : 24, 0);
      if (piece.lines) gl.disableVertexAttribArray(normal);
      else {
        gl.enableVertexAttribArray(normal);
        gl.vertexAttribPointer(normal, 3, gl.FLOAT, false, 24, 12);
      }
      set('off', '3fv', piece.off.map((each) => each * share));
      set('tone', '3fv', piece.tone);
      set('lines', '1f', piece.lines ? 1 : 0);
      set('inside', '1f', piece.inside ? 1 : 0);
      set('lift', '1f', piece.lines ? 0.002 : 0);
      gl.drawArrays(piece.lines ? gl.LINES : gl.TRIANGLES, 0, piece.count);
    }
  };

  const turnBy = (about, over) => {
    round += about;
    above = Math.max(-1.5, Math.min(1.5, above + over));
    draw();
  };
  canvas.addEventListener('pointerdown', (event) => canvas.setPointerCapture(event.pointerId));
  canvas.addEventListener('pointermove', (event) => {
    if (event.buttons || event.pressure > 0) turnBy(event.movementX * 0.01, event.movementY * 0.01);
  });
  canvas.addEventListener('keydown', (event) => {
    const by = { ArrowLeft: [-0.15, 0], ArrowRight: [0.15, 0], ArrowUp: [0, -0.15], ArrowDown: [0, 0.15] }[event.key];
    if (by) {
      event.preventDefault();
      turnBy(...by);
    }
  });
  const ask = make('button', 'Turn it in three dimensions', { type: 'button', class: 'small' });
  ask.addEventListener('click', () => {
    const key = make('figcaption', 'Looped mark: show face. Hatched: inside. Brown: glue.');
    figure.replaceChildren(canvas, apartLabel, clampLabel, glueLabel, benchLabel, key);
    if (begin()) draw();
    else figure.replaceChildren(make('p', 'This browser draws nothing in three dimensions: the pictures do.'));
  });
  addEventListener('resize', draw);
  figure.append(ask);
  figure.hidden = false;
})();
