import { DoorpostError } from '../errors.js';
import { isContentId } from '../exchange/csv/content-id.js';
import type { Caseload } from '../records/caseload.js';
import type { Child } from '../records/records.js';

type Named = Pick<Child, 'id' | 'name'>;

const plain = (name: string): string => name.toLocaleLowerCase();

/** What a person calls each child: the id the clinic's list gives, which tells strangers nothing, else the name where no other child has it. */
export function childWords(children: readonly Named[]): (id: string) => string {
  const times = new Map<string, number>();
  for (const { name } of children) times.set(plain(name), (times.get(plain(name)) ?? 0) + 1);
  const words = new Map(
    children.map(({ id, name }) => {
      if (name === '' || !isContentId(id)) return [id, id];
      return [id, times.get(plain(name)) === 1 ? name : `${name} (${id})`];
    }),
  );
  return (id) => words.get(id) ?? id;
}

/** The caseload of one child alone, meant by an id or by a name that only one child has. */
export function oneChild(caseload: Caseload, given: string): Caseload {
  const { children } = caseload;
  const byName = children.filter(({ name }) => plain(name) === plain(given));
  const meant = children.find(({ id }) => id === given) ?? (byName.length === 1 ? byName[0] : undefined);
  if (meant) return { ...caseload, children: [meant] };
  const ids = (byName.length > 1 ? byName : children).slice(0, 10).map(({ id }) => id);
  throw new DoorpostError(
    'not-found',
    byName.length > 1 ? 'several children have this name' : 'no child in what was read has this id or name',
    {
      field: 'child',
      given,
      accepted: `a child's full name, or an id in children, such as ${ids.join(', ')}`,
    },
  );
}
