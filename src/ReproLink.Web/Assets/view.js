// Puts the round on the screen. Only what is different is touched: a screen reader says what changed, not everything.
class ChuteView {
  constructor(round) {
    this.round = round;
  }

  static at(id) {
    return document.getElementById(id);
  }

  text(id, value) {
    const element = ChuteView.at(id);
    if (element && element.textContent !== value) {
      element.textContent = value;
    }
  }

  tell(sentence, wrong) {
    ChuteView.at('said')?.replaceChildren(...(sentence ? [Conflicts.make('p', 'notice', sentence)] : []));
    ChuteView.at('wrong')?.replaceChildren(...(wrong ? [Conflicts.make('p', 'problem', wrong)] : []));
  }

  // What waits, and why it waits.
  waiting(queue, connected) {
    const { say, records } = this.round;
    const bar = ChuteView.at('waiting');
    const count = records.filter(r => !r.refused).length;
    const parts = [
      count > 0 && say('waiting', count), queue.problem === 'refused-key' && say('refused-key'), !connected && !queue.problem && say('offline'),
    ].filter(Boolean);
    const said = `${parts.join('. ')}${queue.problem ?? ''}`;
    bar.hidden = said.length === 0;
    bar.dataset.waiting = String(count);
    if (bar.dataset.said === said) {
      return;
    }

    bar.dataset.said = said;
    bar.replaceChildren(parts.join('. '));
    if (queue.problem === 'sign-in') {
      const link = Conflicts.make('a', '', say('sign-in'));
      link.href = `/sign-in?return=${encodeURIComponent(location.pathname)}`;
      bar.append(' ', link);
    }
  }

  progress(list) {
    const settled = list.filter(t => t.state !== 'planned').length;
    ChuteView.at('bar').max = list.length;
    ChuteView.at('bar').value = settled;
    this.text('progress', this.round.say('progress', settled, list.length, list.filter(t => t.state === 'drawn' || t.state === 'short').length));
  }

  tube(list, current) {
    const { say } = this.round;
    const tube = list.find(t => t.tube === current);
    if (!tube || !ChuteView.at('animal')) {
      return;
    }

    ChuteView.at('tube').dataset.tube = tube.tube;
    ChuteView.at('animal').classList.toggle('long', tube.animal.length > 6);
    this.text('pen', tube.pen ? say('pen', tube.pen) : say('no-pen'));
    this.text('name', this.round.named(tube));
    this.text('animal', tube.animal);
    this.text('what', tube.what);
    this.text('days', tube.days ? say('days', tube.days) : say('no-service'));
    this.text('stands', this.round.words(tube));
    this.text('stamp', tube.state === 'planned' ? '' : tube.stamp ?? '');
    this.marks(tube);
    const place = list.indexOf(tube);
    for (const [id, beside] of [['previous', list[place - 1]], ['next', list[place + 1]]]) {
      ChuteView.at(id).hidden = !beside;
      ChuteView.at(id).setAttribute('href', beside ? `?tube=${encodeURIComponent(beside.tube)}` : '#');
    }
  }

  // Of a tube that left only its breaking can be said.
  marks(tube) {
    const mark = ChuteView.at('mark');
    if (mark) {
      mark.elements.tube.value = tube.tube;
      mark.elements.was.value = tube.state;
      mark.querySelectorAll('button').forEach(b => { b.hidden = tube.left ? b.value !== 'broken' : b.value === 'planned' && tube.state === 'planned'; });
      mark.querySelector('fieldset').hidden = tube.left;
    }
  }

  list(list) {
    const rows = new Map(ChuteView.rows().map(row => [row.dataset.tube, row]));
    rows.forEach((row, tube) => { if (!list.some(t => t.tube === tube)) { row.remove(); } });
    for (const tube of list) {
      const row = rows.get(tube.tube) ?? ChuteView.row(tube.tube);
      row.classList.toggle('waits', !!tube.waits);
      row.querySelector('a').setAttribute('href', `?tube=${encodeURIComponent(tube.tube)}`);
      row.querySelector('b').textContent = tube.animal;
      row.querySelector('span').textContent = this.round.named(tube);
      row.querySelector('.stand').textContent = this.round.words(tube);
    }
  }

  static rows() {
    return [...document.querySelectorAll('#tubes li')];
  }

  static row(tube) {
    const row = document.createElement('li');
    const link = document.createElement('a');
    row.dataset.tube = tube;
    link.append(Conflicts.make('b'), ' ', document.createElement('span'), ' ', Conflicts.make('span', 'stand'));
    row.append(link);
    ChuteView.at('tubes').append(row);
    return row;
  }
}
