'use strict';
// Keys on held results, and a file dropped anywhere on its form. Everything is there without this, by button.
(() => {
  const cards = [...document.querySelectorAll('.held[tabindex]')];
  cards.forEach((card, i) => card.addEventListener('keydown', event => {
    // Never while something is typed or chosen, nor with another key held down.
    if (event.target.closest('input, select, textarea') || event.ctrlKey || event.altKey || event.metaKey || event.repeat) {
      return;
    }

    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    const act = /^[1-9]$/.test(event.key) ? card.querySelector(`button[data-key="${event.key}"]`) : null;
    if (act) {
      event.preventDefault();
      act.click();
    } else if (event.key.toLowerCase() === 'd') {
      event.preventDefault();
      card.querySelector('.dismiss input[name=reason]')?.focus();
    } else if (step && event.target === card && cards[i + step]) {
      event.preventDefault();
      cards[i + step].focus();
    }
  }));

  if (cards.length > 0 && !location.hash && document.querySelector('.held .problem') === null) {
    cards[0].focus({ preventScroll: cards.length > 0 && document.querySelector('.done-held') !== null });
  }

  const form = document.getElementById('intake');
  const file = document.getElementById('file');
  form?.addEventListener('dragover', event => { event.preventDefault(); form.classList.add('over'); });
  form?.addEventListener('dragleave', () => form.classList.remove('over'));
  form?.addEventListener('drop', event => {
    form.classList.remove('over');
    if (event.dataTransfer.files.length > 0) {
      event.preventDefault();
      file.files = event.dataTransfer.files;
    }
  });
})();
