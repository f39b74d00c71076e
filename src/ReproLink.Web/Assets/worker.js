'use strict';
// Keeps the pages of rounds and what they load, so that they open without a network. Only looks: nothing is ever sent from here.
const kept = 'reprolink-rounds';
const patience = 4000;

self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', event => event.waitUntil(self.clients.claim()));

self.addEventListener('fetch', event => {
  const request = event.request;
  const address = new URL(request.url);
  if (request.method !== 'GET' || address.origin !== location.origin) {
    return;
  }

  if (request.mode === 'navigate' && /\/rounds\/R\d+(\/chute)?$/.test(address.pathname)) {
    event.respondWith(page(request, address.pathname));
  } else if (address.searchParams.has('v')) {
    event.respondWith(asset(request));
  }
});

async function page(request, path) {
  const cache = await caches.open(kept);
  try {
    const answer = await within(fetch(request));
    if (answer.type === 'opaqueredirect') {
      // Whoever is signed out sees nothing any more of what she saw.
      await cache.delete(path);
    } else if (answer.ok) {
      await cache.put(path, answer.clone());
    }

    return answer;
  } catch (gone) {
    const old = await cache.match(path);
    if (old) {
      return old;
    }

    throw gone;
  }
}

async function asset(request) {
  const cache = await caches.open(kept);
  const old = await cache.match(request.url);
  if (old) {
    return old;
  }

  const answer = await fetch(request);
  if (answer.ok) {
    await cache.put(request.url, answer.clone());
  }

  return answer;
}

// A network that hangs is worse than one that is gone.
function within(answer) {
  return Promise.race([answer, new Promise((_, reject) => setTimeout(() => reject(new Error('slow')), patience))]);
}
