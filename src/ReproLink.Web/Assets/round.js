// The round as it is known here: what the server has, and on top of it what was recorded and is not sent yet.
class RoundHere {
  constructor(root, rows) {
    this.zone = root.dataset.zone;
    this.sentences = JSON.parse(root.dataset.say);
    this.say = this.say.bind(this);
    this.stamp = this.stamp.bind(this);
    this.records = [];
    this.tubes = new Map(rows.map(row => [row.dataset.tube, {
      tube: row.dataset.tube, animal: row.dataset.animal, pen: row.dataset.pen, what: row.dataset.what, days: row.dataset.days, ids: (row.dataset.ids ?? '').split(' '),
      state: row.dataset.state, reason: row.dataset.reason, stamp: row.dataset.stamp, left: row.dataset.gone === 'yes',
    }]));
  }

  say(word, ...values) {
    return values.reduce((text, value, i) => text.replaceAll(`{${i}}`, value), this.sentences[word] ?? word);
  }

  // The herd's day and time, by the service's clock: a phone's may be wrong, or in another zone.
  clock() {
    const now = new Date(Date.now() + Number(localStorage.getItem('reprolink-clock') ?? 0));
    const [date, time] = new Intl.DateTimeFormat('sv-SE', { timeZone: this.zone, dateStyle: 'short', timeStyle: 'short' }).format(now).split(' ');
    return { date, time };
  }

  stamp({ date, time, by }) {
    const when = [date && this.day(date), date && time && this.time(time)].filter(Boolean).join(' ');
    return [when, by].filter(Boolean).join(', ');
  }

  // Days and times as the page itself writes them.
  day(date) {
    const [year, month, day] = date.split('-');
    const weekday = new Date(`${date}T00:00Z`).getUTCDay() || 7;
    return this.say('day', this.say(`weekday.${weekday}`), Number(day), this.say(`month.${Number(month)}`), year, month, day);
  }

  time(time) {
    const [hour, minute] = time.split(':');
    return this.sentences.am ? this.say(hour < 12 ? 'am' : 'pm', `${hour % 12 || 12}:${minute}`) : `${hour}:${minute}`;
  }

  named(tube) {
    return tube.isNew ? this.say('new-tube') : tube.tube;
  }

  words(tube) {
    return this.say(tube.state === 'not-drawn' ? tube.reason ?? 'other' : tube.state);
  }

  // What the server says counts; what a tube is drawn for it says when the page is made.
  learn(answers) {
    for (const tube of answers) {
      const known = this.tubes.get(tube.tube) ?? { pen: tube.pen, what: '', days: tube.daysPostService, ids: [] };
      this.tubes.set(tube.tube, {
        ...known, tube: tube.tube, animal: tube.animal, state: tube.state, reason: tube.reason, left: tube.dispatch !== undefined, stamp: this.stamp(tube),
      });
    }
  }

  // A tube as the technician knows it: her own word over the server's, unless the server refused it.
  standing(tube) {
    return this.records.filter(r => !r.refused && (r.tube === tube.tube || r.old === tube.tube)).reduce((shown, r) =>
      r.tube !== tube.tube ? { ...shown, state: 'broken', reason: undefined, stamp: this.stamp(this.clock()), waits: true }
        : r.add ? shown
          : { ...shown, state: r.body.state, reason: r.body.reason, stamp: this.stamp(r.body), waits: true }, tube);
  }

  all() {
    const added = this.records.filter(r => r.add && !r.refused).map(r => {
      const old = this.tubes.get(r.old);
      return { tube: r.tube, animal: r.animal, pen: old?.pen, what: old?.what ?? '', days: old?.days, ids: [], state: 'planned', isNew: true, waits: true };
    });
    return [...this.tubes.values(), ...added].map(tube => this.standing(tube));
  }

  // From what was typed or scanned to a tube; a number is an animal's.
  find(asked, name) {
    const bare = asked.replaceAll(/\s/g, '').toUpperCase();
    const [, of, number] = /^R0*(\d+)-0*(\d+)$/.exec(bare) ?? [];
    if (of) {
      return { tube: this.all().find(t => t.tube === `R${of}-${number.padStart(3, '0')}` && `R${of}` === name), instead: this.say('foreign', bare) };
    }

    const hers = this.all().filter(t => t.animal.toUpperCase() === bare || t.ids.some(id => id.toUpperCase() === bare));
    return { tube: hers.find(t => t.state === 'planned') ?? hers[0], instead: this.say('not-here', asked) };
  }

  // The next to draw after a tube, round about.
  after(tube) {
    const list = this.all();
    const place = list.findIndex(t => t.tube === tube);
    return [...list.slice(place + 1), ...list.slice(0, Math.max(0, place))].find(t => t.state === 'planned') ?? list[place + 1] ?? list[place];
  }
}
