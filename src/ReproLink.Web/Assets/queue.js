'use strict';
// What was recorded and is not yet on the server. It lies on disk before the screen says so; each record carries a key under
// which the server does it once, however often it is sent; nothing leaves the queue before the server has answered.
class Queue {
  constructor(round) {
    this.round = round;
    this.token = null;
    this.busy = Promise.resolve();
    this.problem = null;
  }

  async open() {
    this.db = await new Promise((resolve, reject) => {
      const asked = indexedDB.open('reprolink', 1);
      asked.onupgradeneeded = () => {
        asked.result.createObjectStore('records', { keyPath: 'n', autoIncrement: true });
        asked.result.createObjectStore('seen', { keyPath: 'round' });
      };
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });
    return this;
  }

  // Strict: on disk, not only on its way there; the battery may be empty at the next cow.
  write(work) {
    return new Promise((resolve, reject) => {
      const transaction = this.db.transaction(['records', 'seen'], 'readwrite', { durability: 'strict' });
      transaction.oncomplete = () => resolve();
      transaction.onerror = transaction.onabort = () => reject(transaction.error);
      work(transaction.objectStore('records'), transaction.objectStore('seen'));
    });
  }

  get(store, ask) {
    return new Promise((resolve, reject) => {
      const asked = ask(this.db.transaction(store, 'readonly').objectStore(store));
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });
  }

  async records() {
    return (await this.get('records', s => s.getAll())).filter(r => r.round === this.round);
  }

  // What the server was last known to have.
  seen() {
    return this.get('seen', s => s.get(this.round));
  }

  static key() {
    return Array.from(crypto.getRandomValues(new Uint8Array(16)), b => b.toString(16).padStart(2, '0')).join('');
  }

  add(record) {
    return this.write(records => records.add({ ...record, round: this.round, key: Queue.key() }));
  }

  // A person decided: her own word on the tube is dropped, or said once more, knowing what the server has.
  async settle(tube, instead) {
    const mine = (await this.records()).filter(r => r.tube === tube);
    await this.write(records => {
      mine.forEach(r => records.delete(r.n));
      if (instead) {
        records.add({ ...instead, round: this.round, key: Queue.key() });
      }
    });
  }

  // Where the server stands: its round, a token for what is sent, its clock.
  async look() {
    const answer = await fetch(`${this.round}/now`, { headers: { Accept: 'application/json' }, cache: 'no-store', redirect: 'error' });
    if (answer.status === 401 || answer.status === 403) {
      this.problem = answer.status === 401 ? 'sign-in' : 'refused-key';
      return null;
    }

    if (!answer.ok) {
      throw new Error(`${answer.status}`);
    }

    const now = await answer.json();
    this.token = now.token;
    localStorage.setItem('reprolink-clock', String(Date.parse(now.now) - Date.now()));
    await this.write((_, seen) => seen.put({ round: this.round, tubes: now.round.tubes }));
    this.problem = null;
    return now.round;
  }

  // Sends all that waits, in order; one call after the other, here and in other windows.
  send() {
    this.busy = this.busy.then(() => this.locked(() => this.sendAll()));
    return this.busy;
  }

  locked(work) {
    return navigator.locks ? navigator.locks.request('reprolink-send', work) : work();
  }

  // True = nothing stands in the way; false = the network is gone, or somebody must sign in.
  async sendAll() {
    try {
      const stuck = new Set();
      for (let record; (record = (await this.records()).find(r => !r.refused && !stuck.has(r.n))); ) {
        const before = (await this.records()).filter(r => r.n < record.n && (r.tube === record.tube || r.tube === record.old));
        if (before.some(r => r.refused || stuck.has(r.n))) {
          stuck.add(record.n);
          continue;
        }

        if (!(this.token || await this.look()) || !await this.sendOne(record)) {
          return false;
        }
      }

      return true;
    } catch {
      return false;
    }
  }

  async sendOne(record) {
    let answer = await this.post(record);
    if (answer.status === 400 && (await answer.clone().json()).type === '/problems/page-expired') {
      if (!await this.look()) {
        return false;
      }

      answer = await this.post(record);
    }

    if (answer.ok) {
      await this.sent(record, await answer.json());
      return true;
    }

    if (answer.status === 401 || answer.status === 403) {
      this.token = null;
      this.problem = answer.status === 401 ? 'sign-in' : 'refused-key';
      return false;
    }

    if (answer.status >= 500 || answer.status === 408 || answer.status === 429) {
      return false;
    }

    const refused = await answer.json();
    await this.write(records => records.put({ ...record, refused: { type: refused.type, detail: refused.detail } }));
    this.token = null;
    await this.look();
    return true;
  }

  post(record) {
    return fetch(`${this.round}/tubes${record.add ? '' : `/${encodeURIComponent(record.tube)}`}`, {
      method: record.add ? 'POST' : 'PUT',
      headers: { 'Content-Type': 'application/json', Accept: 'application/json', 'Idempotency-Key': record.key, RequestVerificationToken: this.token },
      body: JSON.stringify(record.body),
      redirect: 'error',
    });
  }

  // What was recorded about a tube without a number is now about the one it got.
  async sent(record, answer) {
    const seen = await this.seen();
    const following = record.add ? (await this.records()).filter(r => r.tube === record.tube && r.n !== record.n) : [];
    await this.write((records, known) => {
      records.delete(record.n);
      following.forEach(r => records.put({ ...r, tube: answer.tube.tube }));
      if (seen) {
        const others = seen.tubes.filter(t => t.tube !== answer.tube.tube);
        known.put({ ...seen, tubes: [...others, answer.tube].sort((a, b) => a.tube.localeCompare(b.tube, 'en', { numeric: true })) });
      }
    });
    this.onsent?.(record, answer);
  }
}
