// What the server would not take, beside what it has: a person decides which counts.
class Conflicts {
  constructor(place, say, stamp, settle) {
    this.place = place;
    this.say = say;
    this.stamp = stamp;
    this.settle = settle;
  }

  // tubes: what the server has; records: what waits here.
  show(tubes, records) {
    const refused = records.filter(r => r.refused);
    const shown = refused.map(r => `${r.n}`).join();
    this.place.hidden = refused.length === 0;
    if (this.shown === shown) {
      return;
    }

    this.shown = shown;
    this.place.replaceChildren(...refused.map(r => this.one(r, tubes.get(r.tube), records)));
  }

  one(record, theirs, records) {
    const last = records.filter(r => r.tube === record.tube).at(-1);
    const box = Conflicts.make('div', 'conflict');
    const heading = Conflicts.make('h2', '', this.say('conflict', theirs?.tube ?? this.say('new-tube'), record.animal));
    const list = Conflicts.make('dl', 'facts');
    if (theirs) {
      list.append(Conflicts.make('dt', '', this.say('server-has')), Conflicts.make('dd', 'theirs', this.words(theirs)));
    }

    list.append(Conflicts.make('dt', '', this.say('here')), Conflicts.make('dd', 'mine', this.mine(last)));
    const buttons = Conflicts.make('p', 'choice');
    buttons.append(this.button('keep-theirs', record, () => this.settle(record.tube, null)));
    if (record.refused.type === '/problems/tube-changed') {
      buttons.append(this.button('keep-mine', record, () => this.settle(record.tube, { tube: last.tube, animal: last.animal, body: { ...last.body, was: theirs.state } })));
    }

    box.append(heading, list, Conflicts.make('p', 'problem', record.refused.detail), buttons);
    return box;
  }

  words(tube) {
    return [this.say(tube.reason ?? tube.state), tube.stamp].filter(Boolean).join(', ');
  }

  mine(record) {
    const { state, reason } = record.body;
    const what = record.add ? this.say(record.old ? 'redraw' : 'add') : this.say(reason ?? state);
    return [what, this.stamp(record.body)].filter(Boolean).join(', ');
  }

  button(word, record, act) {
    const button = Conflicts.make('button', word === 'keep-mine' ? '' : 'second', this.say(word));
    button.type = 'button';
    button.setAttribute('aria-label', `${this.say(word)}: ${record.tube}, ${record.animal}`);
    button.addEventListener('click', act);
    return button;
  }

  static make(name, className, text) {
    const element = document.createElement(name);
    if (className) {
      element.className = className;
    }

    if (text) {
      element.textContent = text;
    }

    return element;
  }
}
