// A little help for readers; every page works without it. Nothing is asked but this room.
'use strict';

// Suggestions under a search field: a list box by the patterns of WAI-ARIA, all by keys too.
for (const [number, field] of document.querySelectorAll('input[data-suggest]').entries()) {
  const list = document.createElement('ul');
  list.className = 'suggested';
  list.id = `suggested-${number}`;
  list.setAttribute('role', 'listbox');
  list.setAttribute('aria-label', field.labels?.[0]?.textContent ?? '');
  list.hidden = true;
  field.after(list);
  field.setAttribute('role', 'combobox');
  field.setAttribute('aria-autocomplete', 'list');
  field.setAttribute('aria-expanded', 'false');
  field.setAttribute('aria-controls', list.id);

  const kept = new URLSearchParams(field.dataset.kept);
  let chosen = -1;
  let asked = 0;
  let timer;

  const close = () => {
    list.hidden = true;
    chosen = -1;
    field.setAttribute('aria-expanded', 'false');
    field.removeAttribute('aria-activedescendant');
  };

  const choose = (place) => {
    const options = [...list.children];
    if (options.length === 0) return;
    chosen = (place + options.length) % options.length;
    for (const [at, option] of options.entries()) option.setAttribute('aria-selected', String(at === chosen));
    field.setAttribute('aria-activedescendant', options[chosen].id);
    options[chosen].scrollIntoView({ block: 'nearest' });
  };

  const address = (path, query = []) => {
    const search = new URLSearchParams([...query, ...kept]).toString();
    return search === '' ? path : `${path}?${search}`;
  };

  const option = (lead, small, href) => {
    const item = document.createElement('li');
    item.id = `${list.id}-${list.children.length}`;
    item.setAttribute('role', 'option');
    item.setAttribute('aria-selected', 'false');
    item.dataset.href = href;
    item.append(lead);
    if (small) {
      const words = document.createElement('small');
      words.append(small);
      item.append(words);
    }
    // Before the field loses its place.
    item.addEventListener('pointerdown', (event) => {
      event.preventDefault();
      location.assign(item.dataset.href);
    });
    list.append(item);
  };

  const show = (view) => {
    list.replaceChildren();
    for (const { herb, english } of view.herbs) option(`${herb.name} ${herb.pinyin}`, english, address(`/herb/${encodeURIComponent(herb.id)}`));
    for (const work of view.works) option(work.title, work.english, address(`/works/${encodeURIComponent(work.id)}`));
    for (const { facet, value } of view.values) option(`${value.han} ${value.english}`, facet, address('/find', [[facet, value.id]]));
    list.hidden = list.children.length === 0;
    field.setAttribute('aria-expanded', String(!list.hidden));
    chosen = -1;
  };

  const ask = async () => {
    const typed = field.value.trim();
    asked += 1;
    const mine = asked;
    if (typed === '') return close();
    const query = new URLSearchParams([['q', typed], ...[...kept].filter(([name]) => name !== 'pinyin')]);
    try {
      const answer = await fetch(`${field.dataset.suggest}?${query}`);
      if (answer.ok && mine === asked && document.activeElement === field) show(await answer.json());
    } catch {
      close();
    }
  };

  field.addEventListener('input', (event) => {
    // While characters are being composed nothing is asked.
    if (event.isComposing) return;
    clearTimeout(timer);
    timer = setTimeout(ask, 120);
  });
  field.addEventListener('compositionend', ask);
  field.addEventListener('blur', close);
  field.addEventListener('keydown', (event) => {
    if (event.isComposing || list.hidden) return;
    if (event.key === 'ArrowDown') choose(chosen + 1);
    else if (event.key === 'ArrowUp') choose(chosen < 0 ? -1 : chosen - 1);
    else if (event.key === 'Escape') close();
    else if (event.key === 'Enter' && chosen >= 0) location.assign(list.children[chosen].dataset.href);
    else return;
    event.preventDefault();
  });
}

// "/" leads to the search field, unless one is writing.
document.addEventListener('keydown', (event) => {
  const writing = /^(input|select|textarea)$/i.test(document.activeElement?.tagName ?? '');
  if (event.key !== '/' || writing || event.ctrlKey || event.metaKey || event.altKey) return;
  event.preventDefault();
  document.querySelector('#ask, #q, #seek')?.focus();
});

// What a link leads to is not hidden in a closed part; and on paper nothing is.
const openFor = (id) => {
  let part = id === '' ? null : document.getElementById(id);
  for (; part; part = part.parentElement) if (part.tagName === 'DETAILS') part.open = true;
};
addEventListener('hashchange', () => openFor(decodeURIComponent(location.hash.slice(1))));
openFor(decodeURIComponent(location.hash.slice(1)));
