// Beside the page on a web server: keeps it, so that it opens without a network after the first visit. It
// answers with what it kept, and fetches for the next visit what the server has by then.
'use strict';
const page = registration.scope;

const fetched = async () => {
  const answer = await fetch(page);
  if (answer.ok) {
    await (await caches.open('glueup')).put(page, answer.clone());
  }
  return answer;
};

addEventListener('install', (event) => event.waitUntil(fetched()));
addEventListener('fetch', (event) => {
  if (event.request.mode === 'navigate') {
    const fresh = fetched();
    event.waitUntil(fresh.catch(() => {}));  // no network
    event.respondWith(caches.match(page).then((kept) => kept || fresh));
  }
});
