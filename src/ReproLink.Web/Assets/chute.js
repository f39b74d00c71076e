// The chute in the browser: what is pressed is recorded here first, and sent as soon as it can be.
(async () => {
  const root = document.getElementById('chute');
  const queue = root && window.indexedDB ? await new Queue(root.dataset.round).open().catch(() => null) : null;
  if (!queue) {
    return; // A private window without storage: the plain forms do, while there is a network.
  }

  const { at } = ChuteView;
  const round = new RoundHere(root, ChuteView.rows());
  const view = new ChuteView(round);
  const { say } = round;
  let current = at('tube')?.dataset.tube ?? null;
  let connected = true;

  const conflicts = new Conflicts(at('conflicts'), say, round.stamp, async (tube, instead) => {
    await queue.settle(tube, instead);
    await refresh();
  });

  function show() {
    view.waiting(queue, connected);
    conflicts.show(round.tubes, round.records);
    if (at('bar')) {
      const list = round.all();
      view.progress(list);
      view.tube(list, current);
      view.list(list);
    }
  }

  async function reread() {
    round.records = await queue.records();
    show();
  }

  async function refresh() {
    await reread();
    connected = await queue.send();
    await reread();
  }

  async function look() {
    const answer = await queue.look().catch(() => null);
    connected = answer !== null || queue.problem !== null;
    round.learn(answer?.tubes ?? (await queue.seen())?.tubes ?? []);
    await refresh();
  }

  queue.onsent = (record, answer) => {
    round.learn([answer.tube]);
    if (record.add) {
      current = current === record.tube ? answer.tube.tube : current;
      view.tell(say('named', answer.tube.animal, answer.tube.tube));
    }
  };

  function go(tube, push = true) {
    current = tube;
    if (push) {
      history.pushState(null, '', `?tube=${encodeURIComponent(tube)}`);
    }

    show();
    window.scrollTo(0, 0);
  }

  function find(asked) {
    const { tube, instead } = round.find(asked, root.dataset.name);
    at('find').value = '';
    view.tell(null, tube ? null : instead);
    if (tube) {
      go(tube.tube);
      at('animal').focus();
    }
  }

  async function addTube(record) {
    const tube = `new-${Queue.key().slice(0, 8)}`;
    await queue.add({ ...record, tube, add: true });
    round.records = await queue.records();
    view.tell(say('new-tube-note', record.animal));
    go(tube);
    await refresh();
  }

  async function mark(word) {
    const list = round.all();
    const tube = list.find(t => t.tube === current);
    if (word === 'redraw') {
      await addTube({ old: tube.tube, animal: tube.animal, body: { redraws: tube.tube } });
      return;
    }

    const by = at('who')?.value.trim() || root.dataset.who;
    localStorage.setItem('reprolink-who', by);
    const said = ['planned', 'drawn', 'short', 'broken'].includes(word) ? { state: word } : { state: 'not-drawn', reason: word };
    await queue.add({ tube: tube.tube, animal: tube.animal, body: { ...said, ...round.clock(), by, was: tube.state } });
    round.records = await queue.records();
    const skipped = word === 'drawn' || word === 'short' ? list.slice(0, list.indexOf(tube)).filter(t => t.state === 'planned').map(t => round.named(t)) : [];
    view.tell([
      say('recorded', round.named(tube), tube.animal, say(word)),
      skipped.length > 0 && say('skipped', skipped.length > 3 ? `${skipped.slice(0, 3).join(', ')} …` : skipped.join(', ')),
      !round.all().some(t => t.state === 'planned') && say('all-settled'),
    ].filter(Boolean).join(' '));
    go(word === 'planned' ? tube.tube : round.after(tube.tube).tube);
    await refresh();
  }

  async function addAnimal() {
    const animal = at('animal-added').value.trim();
    if (!animal) {
      view.tell(null, say('no-animal'));
      return;
    }

    at('animal-added').value = '';
    await addTube({ animal, body: { animal } });
  }

  function onSubmit(id, act) {
    at(id)?.addEventListener('submit', event => {
      event.preventDefault();
      act(event);
    });
  }

  onSubmit('mark', event => mark(event.submitter.value));
  onSubmit('add', addAnimal);
  onSubmit('jump', () => { if (at('find').value.trim()) { find(at('find').value.trim()); } });
  scanning(find, reason => view.tell(null, say('no-camera', reason)));
  document.addEventListener('click', event => {
    const link = event.target.closest?.('#previous, #next, #tubes a');
    if (link && current !== null && !event.ctrlKey && !event.metaKey) {
      event.preventDefault();
      view.tell();
      go(new URLSearchParams(link.search).get('tube'));
      at('all').open = false;
    }
  });
  document.querySelector('form[action="/sign-out"]')?.addEventListener('submit', () => {
    window.caches?.delete('reprolink-rounds'); // What waits stays, and is sent when somebody signs in.
  });
  window.addEventListener('popstate', () => { const tube = new URLSearchParams(location.search).get('tube'); if (tube && at('animal')) { go(tube, false); } });
  window.addEventListener('online', look);
  window.addEventListener('offline', () => { connected = false; show(); });
  document.addEventListener('visibilitychange', () => { if (!document.hidden) { look(); } });
  setInterval(() => { if (!document.hidden) { look(); } }, 15000);

  at('animal')?.setAttribute('tabindex', '-1');
  if (at('who') && localStorage.getItem('reprolink-who')) {
    at('who').value = localStorage.getItem('reprolink-who');
  }

  if (navigator.serviceWorker) {
    navigator.serviceWorker.register(root.dataset.worker, { scope: root.dataset.round.replace(/[^/]+$/, '') }).catch(() => {});
    // This page was loaded before anything could keep it.
    window.caches?.open('reprolink-rounds').then(cache => cache.addAll([location.pathname, ...root.dataset.keep.split(' ')])).then(() => { root.dataset.kept = 'yes'; }, () => {});
  } else {
    view.tell(say('keep-open'));
  }

  // A page that was kept shows the tube it was kept with: go to the one asked for, else to the next to draw.
  await look();
  const list = round.all();
  const asked = new URLSearchParams(location.search).get('tube');
  current = current === null ? null : (list.find(t => t.tube === asked) ?? list.find(t => t.state === 'planned') ?? list.find(t => t.tube === current) ?? list[0]).tube;
  show();
  root.dataset.ready = 'yes';
})();
