// Elements, their words always as text: nothing a user typed is ever read as markup.
const make = (name, settings = {}, ...inside) => {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(settings)) {
    if (key === 'on') {
      Object.entries(value).forEach(([event, act]) => element.addEventListener(event, act));
    } else if (key in element && typeof value !== 'string') {
      element[key] = value;
    } else if (value !== undefined) {
      element.setAttribute(key, value);
    }
  }
  element.append(...inside);
  return element;
};
const find = (id) => document.getElementById(id);

// "top_thickness" as people say it.
const spoken = (key) => key.replace(/_/g, ' ');

const download = (name, text, type = 'text/plain') => {
  const link = make('a', { download: name, href: URL.createObjectURL(new Blob([text], { type })) });
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
};

// An SVG that the core drew, as an element.
const drawn = (svg) => new DOMParser().parseFromString(svg, 'text/html').querySelector('svg');

// What is packed into the page: base64 of gzip.
const unpacked = async (id) => {
  const packed = find(id).textContent.trim();
  const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Uint8Array(await new Response(stream).arrayBuffer());
};
const debounced = (act, wait) => {
  let timer;
  return () => {
    clearTimeout(timer);
    timer = setTimeout(act, wait);
  };
};
