// The inputs of a field, and what of them goes into the file.
const quoting = (schema) => (schema.type === 'string' && !/a number in the file/i.test(schema.format || '') ? 'quoted' : 'bare');
const listed = (values) => `[${values.map((v) => (/^-?(0|[1-9]\d*)(\.\d+)?$/.test(v) ? v : JSON.stringify(v))).join(', ')}]`;

// The keys a phone offers: figures where the file takes nothing else. Fractions of an inch and signs need the others.
const keysOf = (schema, units) => {
  const numbers = [schema, ...(schema.oneOf || [])].filter(({ type }) => type === 'number');
  const length = Boolean(schema.oneOf), signed = numbers.some((n) => (n.minimum ?? n.exclusiveMinimum ?? -1) < 0);
  return schema.type === 'integer' ? 'numeric' : numbers.length > 0 && !signed && (!length || units === 'mm') ? 'decimal' : 'text';
};

class OneField {
  constructor(form, schema, path) {
    Object.assign(this, { form, schema, path });
    const choices = this.choices();
    this.input = choices
      ? make('select', {}, ...choices.map(([id, name]) => make('option', { value: id }, name)))
      : make('input', { type: 'text', autocomplete: 'off', spellcheck: 'false' });
    this.input.addEventListener('input', () => this.typed());
    this.inputs = [this.input];
  }

  choices() {
    const { schema, form, path } = this;
    if (schema.type === 'boolean') {
      return [['', '–'], ['true', 'yes'], ['false', 'no']];
    }
    const listed = form.choices(path);
    if (listed) {
      return [['', '–'], ...listed];
    }
    if (!schema.enum) {
      return null;
    }
    const uk = form.ukWords(), twins = Object.entries(UK_TWINS).filter(([us, gb]) => schema.enum.includes(us) && schema.enum.includes(gb));
    const hidden = twins.map(([us, gb]) => (uk ? us : gb));
    return [['', '–'], ...schema.enum.filter((word) => !hidden.includes(word)).map((word) => [word, word])];
  }

  typed() {
    const value = this.input.value.trim();
    if (value === '') {
      this.form.put(['remove', ...this.path]);
    } else {
      this.form.put(['set', value, this.schema.type === 'boolean' ? 'toml' : this.input.tagName === 'SELECT' ? 'quoted' : quoting(this.schema), ...this.path]);
    }
  }

  update(node) {
    const value = node && node.text !== undefined ? node.text : '';
    if (this.input.tagName === 'SELECT' && ![...this.input.options].some((o) => o.value === value)) {
      this.input.append(make('option', { value }, value));
    }
    // Not while he types: "12." is on its way to "12.5".
    if (this.input.value !== value && (document.activeElement !== this.input || this.input.tagName === 'SELECT')) {
      this.input.value = value;
    }
  }
}

// So many values in one list: length, width and height.
class ManyField {
  constructor(form, schema, path, many) {
    const item = form.resolved(schema.items || {});
    Object.assign(this, { form, schema: item, path, there: false });
    this.inputs = Array.from({ length: many }, (_, i) => make('input', {
      type: 'text', autocomplete: 'off', on: { input: () => this.typed(i) },
    }));
  }

  typed(i) {
    const values = this.inputs.map((input) => input.value.trim());
    if (this.there && values[i] !== '') {
      this.form.put(['set', values[i], quoting(this.schema), ...this.path, String(i)]);
    } else if (!this.there && values.every((v) => v !== '')) {
      this.form.put(['set', listed(values), 'toml', ...this.path]);
    } else if (this.there && values.every((v) => v === '')) {
      this.form.put(['remove', ...this.path]);
    }
  }

  update(node) {
    this.there = Boolean(node && node.items && node.items.length === this.inputs.length);
    if (this.there || !this.inputs.includes(document.activeElement)) {
      this.inputs.filter((input) => input !== document.activeElement).forEach((input) => {
        input.value = this.there ? node.items[this.inputs.indexOf(input)].text : '';
      });
    }
  }
}

// Any number of texts or lengths, with commas between.
class ListField {
  constructor(form, path) {
    Object.assign(this, { form, path, schema: {} });
    this.inputs = [make('input', { type: 'text', autocomplete: 'off', on: { input: () => this.typed() } })];
  }

  typed() {
    const values = this.inputs[0].value.split(',').map((v) => v.trim()).filter((v) => v !== '');
    if (values.length === 0) {
      this.form.put(['remove', ...this.path]);
    } else {
      this.form.put(['set', listed(values), 'toml', ...this.path]);
    }
  }

  update(node) {
    const [input] = this.inputs;
    if (document.activeElement !== input) {
      input.value = node && node.items ? node.items.map((item) => item.text || '').join(', ') : (node && node.text) || '';
    }
  }
}
