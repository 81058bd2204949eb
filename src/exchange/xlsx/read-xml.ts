import sax from 'sax';

export interface XmlReader {
  /** `name` is without its namespace prefix; so are attributes, except that 'r:id' keeps apart from 'id'. */
  open?(name: string, attributes: ReadonlyMap<string, string>): void;
  text?(text: string): void;
  close?(name: string): void;
}

/**
 * Hands elements to a reader as they pass; nothing is kept. No outside entity is fetched and none of a document's
 * own is expanded: the parser knows the five of XML and stops at any other.
 */
export async function readXml(pieces: AsyncIterable<string>, reader: XmlReader): Promise<void> {
  const parser = sax.parser(true, { trim: false, normalize: false, position: false });
  parser.onerror = (error) => {
    throw error;
  };
  parser.onopentag = ({ name, attributes }) =>
    reader.open?.(
      localName(name),
      new Map(Object.entries(attributes).map(([key, value]) => [key, String(value)])),
    );
  parser.ontext = (text) => reader.text?.(text);
  parser.oncdata = (text) => reader.text?.(text);
  parser.onclosetag = (name) => reader.close?.(localName(name));
  for await (const piece of pieces) parser.write(piece);
  parser.close();
}

const localName = (name: string): string => name.slice(name.indexOf(':') + 1);
