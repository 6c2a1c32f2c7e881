// The page's core without the page: reads requests, one JSON list of texts a line, and answers each with a line.
// node page_core.mjs core.wasm core.js
import fs from 'node:fs';
import readline from 'node:readline';

const [wasm, script] = process.argv.slice(2);
const module = await WebAssembly.compile(fs.readFileSync(wasm));
const openCore = new Function(`${fs.readFileSync(script, 'utf8')}\nreturn openCore;`)();
for await (const line of readline.createInterface({ input: process.stdin })) {
  const request = JSON.parse(line).map((text) => (typeof text === 'string' ? text : Uint8Array.from(text)));
  const began = performance.now();
  let reply;
  try {
    reply = (await openCore(module)).ask(...request);
  } catch (fault) {
    reply = { fault: fault.message };
  }
  process.stdout.write(`${JSON.stringify({ ...reply, ms: performance.now() - began })}\n`);
}
