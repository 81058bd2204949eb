/** A telephone number in the contact can be tapped. */
export function Contact({ text }: { text: string }) {
  if (!text) return <em>No contact kept</em>;
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
