import type { Region } from '../../rules/fit-rule.js';
import type { FamilyWords } from '../../words/family/family-words.js';

/** What to look for, a list for each kind of device worn. */
export function Signs(props: { words: FamilyWords; regions: readonly Region[]; insensate: boolean }) {
  const { words, regions, insensate } = props;
  const lists = new Map(regions.map((region) => [words.signs(region, insensate).signs.join(), region]));
  return (
    <>
      {[...lists.values()].map((region) => {
        const { title, signs } = words.signs(region, insensate);
        const emergency = words.emergency(region);
        return (
          <div key={region}>
            <h2>{title}</h2>
            <ul>
              {signs.map((sign) => (
                <li key={sign}>{sign}</li>
              ))}
            </ul>
            {emergency && (
              <p>
                <strong>{emergency}</strong>
              </p>
            )}
          </div>
        );
      })}
    </>
  );
}
