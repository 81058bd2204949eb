// A button that copies a field; without script the field is selected and copied by hand.
for (const button of document.querySelectorAll('[data-copy]')) {
  button.hidden = false;
  button.addEventListener('click', async () => {
    const field = document.getElementById(button.dataset.copy);
    field.select();
    await navigator.clipboard?.writeText(field.value).catch(() => document.execCommand('copy'));
    button.textContent = 'Copied';
  });
}
