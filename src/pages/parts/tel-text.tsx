/** A telephone number in a text that people typed can be tapped. */
export function TelText({ text }: { text: string }) {
  const number = /\+?\d[\d ()/-]{5,}\d/.exec(text)?.[0];
  if (!number) return <>{text}</>;
  const at = text.indexOf(number);
  return (
    <>
      {text.slice(0, at)}
      <a class="ring" dir="ltr" href={`tel:${number.replace(/[^+\d]/g, '')}`}>
        {number}
      </a>
      {text.slice(at + number.length)}
    </>
  );
}
