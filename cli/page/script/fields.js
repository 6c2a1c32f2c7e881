// A form over a job or shop file. What may stand in it is the file's schema; what stands in it, and where, the
// core says; what is typed the core puts into the text at its place.
const UK_TWINS = { rabbet: 'rebate', miter: 'mitre', mortise: 'mortice', dado: 'housing' };

class Form {
  // schema: of the file; put(change): called with a request to the core for the file's text; choices(path):
  // [id, name] pairs of a field that names something of a table, or nothing.
  constructor(place, schema, put, choices, ukWords) {
    Object.assign(this, { place, schema, put, choices, ukWords, shape: '', fields: new Map() });
    place.addEventListener('submit', (event) => event.preventDefault());  // Enter in a field
  }

  // Builds the form anew only where tables came or went, so that nobody loses the field he types in. What is told
  // beside no field is given back.
  show(root, mistakes) {
    this.place.toggleAttribute('inert', !root);
    if (!root) {
      return mistakes;
    }
    const shape = JSON.stringify(this.tables(root)) + this.ukWords();
    const next = shape === this.shape ? null : this.rebuilt(root);
    this.shape = shape;
    for (const [key, field] of this.fields) {
      field.update(this.node(root, key.split('\n')));
      field.inputs.forEach((input) => { input.inputMode = keysOf(field.schema, root.entries.units && root.entries.units.text); });
    }
    if (next) {
      next.focus();
    }
    return this.mark(root, mistakes);
  }

  // Where somebody pressed a button in it: what to go on with, which was put in or follows what was taken out.
  rebuilt(root) {
    const active = document.activeElement, inside = this.place.contains(active);
    const stops = () => [...this.place.querySelectorAll('input, select, button')];
    const before = stops(), ids = new Set(before.map(({ id }) => id));
    const at = before.indexOf(inside && active.matches('.remove') ? active.closest('fieldset').querySelector('input, select, button') : active);
    this.fields.clear();
    this.place.replaceChildren(...this.table(this.schema, root, [], true));
    const after = stops();
    const next = after.find(({ id }) => id && !ids.has(id)) || find(active.id) || after[Math.min(at, after.length - 1)];
    if (!inside || !next) {
      return null;
    }
    for (let fold = next.closest('details'); fold; fold = fold.parentElement.closest('details')) {
      fold.open = true;
    }
    return next;
  }

  tables(node) {
    if (node.kind === 'table') {
      return Object.entries(node.entries).filter(([, n]) => n.kind === 'table' || this.ofTables(n))
        .map(([key, n]) => [key, this.tables(n)]);
    }
    return node.items ? node.items.map((item) => this.tables(item)) : [];
  }
  ofTables(node) { return node.kind === 'list' && node.items.length > 0 && node.items[0].kind === 'table'; }

  node(root, path) {
    return path.reduce((n, key) => n && (n.entries ? n.entries[key] : n.items && n.items[Number(key)]), root);
  }

  resolved(schema) {
    const ref = schema.$ref || (schema.allOf && schema.allOf[0].$ref);
    const base = ref ? this.schema.definitions[ref.split('/').pop()] : {};
    return { ...base, ...schema, format: base.description };
  }

  // The fields of a table: those written or wanted in sight, the rest folded away.
  table(schema, node, path, top = false) {
    const wanted = new Set(schema.required || []), sight = [], rest = [], below = [], absent = [];
    for (const [key, raw] of Object.entries(schema.properties || {})) {
      const its = this.resolved(raw), there = node.entries[key], at = [...path, key];
      if (its.type === 'object' || (its.type === 'array' && this.resolved(its.items || {}).type === 'object')) {
        (there ? below : absent).push(there ? this.below(key, its, there, at) : [key, its]);
      } else if (its.oneOf && its.oneOf.some((one) => one.type === 'object')) {
        continue;  // as text only
      } else {
        (there || wanted.has(key) || (top && key === 'people') ? sight : rest).push(this.field(key, its, at));
      }
    }
    const more = rest.length > 0 ? [make('details', { class: 'more' }, make('summary', {}, 'More'), ...rest)] : [];
    const out = [...sight, ...(top ? [...below.flat(), ...more] : [...more, ...below.flat()])];
    if (absent.length > 0) {
      out.push(this.adder(absent, path));
    }
    return out;
  }

  below(key, schema, node, path) {
    if (schema.type === 'object') {
      return [this.group(spoken(key), schema, node, path)];
    }
    const items = this.resolved(schema.items);
    const one = (item, i) => this.group(`${spoken(key)} ${i + 1}`, items, item, [...path, String(i)]);
    const groups = node.kind === 'list' ? node.items.map(one) : [];
    if (path.length === 1 && items.properties) {
      const add = () => this.put(['add', `[[${key}]]`, this.fresh(items)]);
      groups.push(make('button', { type: 'button', class: 'small another', on: { click: add } }, `Another ${spoken(key)}`));
    }
    return groups;
  }

  group(title, schema, node, path) {
    const remove = make('button', {
      type: 'button', class: 'small remove', 'aria-label': `Remove ${title}`,
      on: { click: () => this.put(['remove', ...path]) },
    }, 'Remove');
    const inside = schema.properties && node.kind === 'table' ? this.table(schema, node, path) : [];
    return make('fieldset', {}, make('legend', {}, title), ...inside, remove);
  }

  // The lines of a new table: what it must have.
  fresh(schema) {
    const value = (key, its) => {
      if (its.type === 'array') {
        return `[${Array(its.minItems || 1).fill(value(key, this.resolved(its.items))).join(', ')}]`;
      }
      return its.enum ? JSON.stringify(its.enum[0])
        : its.type === 'integer' || its.oneOf ? String(Math.max(1, its.minimum || 1))
          : JSON.stringify((this.choices([key]) || [[`new ${key}`]])[0][0]);
    };
    return (schema.required || []).map((key) => `${key} = ${value(key, this.resolved(schema.properties[key]))}`).join('\n');
  }

  adder(absent, path) {
    const list = make('select', { 'aria-label': 'What to add' },
      ...absent.map(([key]) => make('option', { value: key }, spoken(key))));
    const add = () => {
      const [key, schema] = absent.find(([name]) => name === list.value);
      const items = schema.type === 'array' ? this.resolved(schema.items) : null;
      if (path.length === 0) {
        this.put(['add', items ? `[[${key}]]` : `[${key}]`, this.fresh(items || schema)]);
      } else {
        this.put(['set', items ? '[]' : `{ ${this.fresh(schema).replace(/\n/g, ', ')} }`, 'toml', ...path, key]);
      }
    };
    return make('p', { class: 'adder' }, list,
      make('button', { type: 'button', class: 'small', on: { click: add } }, 'Add'));
  }

  field(key, schema, path) {
    const many = schema.type === 'array' && schema.minItems === schema.maxItems ? schema.maxItems : 0;
    const list = schema.type === 'array' && many === 0;
    const field = many ? new ManyField(this, schema, path, many)
      : list ? new ListField(this, path) : new OneField(this, schema, path);
    const id = `${this.schema.title}-${path.join('-')}`.replace(/\W+/g, '-');
    const told = make('small', { id: `${id}-help` }, this.help(schema));
    const wrong = make('strong', { class: 'wrong', id: `${id}-wrong` });
    field.inputs.forEach((input, i) => {
      input.id = i === 0 ? id : `${id}-${i}`;
      input.setAttribute('aria-describedby', `${id}-help ${id}-wrong`);
      if (i > 0) {
        input.setAttribute('aria-label', `${spoken(key)} ${i + 1}`);
      }
    });
    field.wrong = wrong;
    this.fields.set(path.join('\n'), field);
    return make('div', { class: 'field' }, make('label', { for: id }, spoken(key)),
      make('span', { class: 'inputs' }, ...field.inputs), told, wrong);
  }

  help(schema) {
    return (schema.description || '').replace(/ ?\(?`glueup [^`]*`\)?/g, '').replace('Id of the wood in the table, such as', 'A wood such as');
  }

  // Each mistake beside its field; those of no field stay for the list above.
  mark(root, mistakes) {
    const left = [...mistakes];
    for (const [key, field] of this.fields) {
      const node = this.node(root, key.split('\n'));
      const mine = node ? left.filter((m) => m.line === node.line && m.severity === 'error') : [];
      mine.forEach((m) => left.splice(left.indexOf(m), 1));
      field.wrong.textContent = mine.map((m) => (m.remedy ? `${m.message}: ${m.remedy}` : m.message)).join('; ');
      field.inputs.forEach((input) => input.setAttribute('aria-invalid', String(mine.length > 0)));
    }
    return left;
  }
}
