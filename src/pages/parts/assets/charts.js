// A chart is a picture until it is touched; then Vega is fetched and the same chart becomes interactive.
let library;

function load(src) {
  return new Promise((resolve, reject) => {
    const script = document.createElement('script');
    script.src = src;
    script.onload = resolve;
    script.onerror = () => reject(new Error(`Could not load ${src}`));
    document.head.append(script);
  });
}

export function vegaEmbed() {
  library ??= load('/assets/vega.js')
    .then(() => load('/assets/vega-lite.js'))
    .then(() => load('/assets/vega-embed.js'))
    .then(() => window.vegaEmbed);
  return library;
}

// `ast` makes Vega interpret its expressions, which the page's content security policy requires.
export async function draw(figure, spec) {
  const embed = await vegaEmbed();
  const holder = document.createElement('div');
  const result = await embed(holder, spec, { ast: true, actions: false, renderer: 'svg', tooltip: true });
  holder.querySelector('svg')?.setAttribute('aria-hidden', 'true');
  figure.replaceChildren(holder);
  return result;
}

for (const figure of document.querySelectorAll('figure[data-spec]')) {
  const wake = async () => {
    figure.removeEventListener('pointerenter', wake);
    figure.removeEventListener('focus', wake);
    try {
      const answer = await fetch(figure.dataset.spec, { headers: { accept: 'application/json' } });
      if (answer.ok) {
        await draw(figure, await answer.json());
        figure.dataset.alive = 'yes';
      }
    } catch {
      // The picture from the server stays.
    }
  };
  figure.addEventListener('pointerenter', wake);
  figure.addEventListener('focus', wake);
}
