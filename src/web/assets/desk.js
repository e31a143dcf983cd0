
// A slider beside each number that has one: both move together; a form that is only read shows what comes of it at once.
for (const number of document.querySelectorAll('input[data-slider]')) {
  const slider = document.createElement('input');
  slider.type = 'range';
  slider.className = 'slide';
  slider.min = number.min || '0';
  slider.max = number.max || number.dataset.slider;
  slider.step = number.step === 'any' ? '0.5' : number.step;
  // An empty field is unsaid; its slider rests where nothing is felt.
  const rest = String(Math.max(0, Number(slider.min)));
  slider.value = number.value === '' ? rest : number.value;
  slider.setAttribute('aria-label', number.labels?.[0]?.textContent ?? '');
  const live = number.form && 'live' in number.form.dataset;
  slider.addEventListener('input', () => {
    number.value = slider.value;
  });
  number.addEventListener('input', () => {
    if (Number(number.value) > Number(slider.max)) slider.max = number.value;
    slider.value = number.value === '' ? rest : number.value;
  });
  if (live) {
    slider.addEventListener('change', () => {
      // What is not filled in yet would only be told as a fault.
      if (number.form.checkValidity()) number.form.requestSubmit();
    });
  }
  number.after(slider);
}
