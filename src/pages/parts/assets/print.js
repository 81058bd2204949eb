// A button that opens the browser's print dialogue, which also saves a PDF; shown only where it works.
for (const button of document.querySelectorAll('[data-prints]')) {
  button.hidden = false;
  button.addEventListener('click', () => window.print());
}
