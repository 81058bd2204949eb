import { posix } from 'node:path';
import type { Archive } from './open-archive.js';
import { readXml } from './read-xml.js';

export interface SheetPart {
  readonly name: string;
  /** Hidden in the spreadsheet program, so that its author may not know of it. */
  readonly hidden: boolean;
  readonly part: string;
}

export interface WorkbookParts {
  readonly sheets: readonly SheetPart[];
  readonly sharedStrings: string | null;
  readonly styles: string | null;
  /** Days are counted from 1904 instead of 1900. */
  readonly from1904: boolean;
}

const ending = (type: string): string => type.slice(type.lastIndexOf('/') + 1);

/** Where a workbook's sheets, texts and styles are, by the relations it declares (ECMA-376 part 2, from memory). */
export async function workbookParts(archive: Archive): Promise<WorkbookParts> {
  const workbook = (await relationsOf(archive, '')).find(({ kind }) => kind === 'officeDocument')?.part;
  const part = workbook ?? 'xl/workbook.xml';
  const relations = await relationsOf(archive, part);
  const byId = new Map(relations.map((relation) => [relation.id, relation]));
  const sheets: SheetPart[] = [];
  let from1904 = false;
  await readXml(archive.read(part), {
    open(name, attributes) {
      if (name === 'workbookPr') from1904 = /^(1|true)$/.test(attributes.get('date1904') ?? '');
      if (name !== 'sheet') return;
      const id = [...attributes].find(([key]) => /:id$/.test(key))?.[1] ?? '';
      const relation = byId.get(id);
      if (relation?.kind !== 'worksheet') return;
      const hidden = (attributes.get('state') ?? 'visible') !== 'visible';
      sheets.push({
        name: attributes.get('name') ?? `Sheet ${sheets.length + 1}`,
        hidden,
        part: relation.part,
      });
    },
  });
  const partOf = (kind: string) => {
    const found = relations.find((relation) => relation.kind === kind)?.part;
    return found !== undefined && archive.has(found) ? found : null;
  };
  return { sheets, sharedStrings: partOf('sharedStrings'), styles: partOf('styles'), from1904 };
}

interface Relation {
  readonly id: string;
  readonly kind: string;
  readonly part: string;
}

async function relationsOf(archive: Archive, of: string): Promise<Relation[]> {
  const folder = posix.dirname(`/${of}`);
  const list = posix.join(folder, '_rels', `${posix.basename(`/${of}`)}.rels`).slice(1);
  const found: Relation[] = [];
  if (!archive.has(list)) return found;
  await readXml(archive.read(list), {
    open(name, attributes) {
      if (name !== 'Relationship' || attributes.get('TargetMode') === 'External') return;
      const part = posix.resolve(folder, attributes.get('Target') ?? '').slice(1);
      found.push({ id: attributes.get('Id') ?? '', kind: ending(attributes.get('Type') ?? ''), part });
    },
  });
  return found;
}
