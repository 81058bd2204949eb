import type { ComponentChildren } from 'preact';
import { Empty, ScrollBox } from './layout.js';

/** Its heading, what stands in it, and whether that is a figure; false where this table goes without it. */
export type Column<R> =
  | false
  | readonly [heading: string, cell: (row: R) => ComponentChildren, kind?: 'number'];

/** A row a record; the first column says whose row it is. */
export function Table<R>(props: {
  rows: readonly R[];
  columns: readonly Column<R>[];
  caption?: ComponentChildren;
  /** 'stack': on a telephone a row is a card, its cells below each other with their headings. */
  class?: string;
  /** What it is, where it may be wider than the screen and scrolls. */
  scroll?: string;
  /** What is said where there is no row. */
  empty?: ComponentChildren;
}) {
  const { rows, caption, scroll, empty } = props;
  if (rows.length === 0 && empty) return <Empty>{empty}</Empty>;
  const columns = props.columns.filter((column) => column !== false);
  const [[, nameOf, kind], ...rest] = columns;
  const table = (
    <table class={props.class}>
      {caption && <caption>{caption}</caption>}
      <thead>
        <tr>
          {columns.map(([heading, , kind]) =>
            // A corner heads nothing.
            heading === '' ? (
              <td key={heading} />
            ) : (
              <th scope="col" class={kind} key={heading}>
                {heading}
              </th>
            ),
          )}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, i) => (
          <tr key={i}>
            <th scope="row" class={kind}>
              {nameOf(row)}
            </th>
            {rest.map(([heading, cell, kind]) => {
              const content = cell(row);
              return (
                <td key={heading} class={content === null ? 'none' : kind} data-label={heading}>
                  {content}
                </td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
  return scroll ? <ScrollBox label={scroll}>{table}</ScrollBox> : table;
}

/** What stands in a cell, and in small letters what else is said of it. */
export const noted = (what: ComponentChildren, note: ComponentChildren) => (
  <>
    {what} {note && <small>{note}</small>}
  </>
);

/** What something is called and what it is; false where it is not told. */
export type Fact = false | readonly [name: string, what: ComponentChildren];

export const Facts = ({ of }: { of: readonly Fact[] }) => (
  <dl class="facts">
    {of.map(
      (fact) =>
        fact && (
          <>
            <dt>{fact[0]}</dt>
            <dd>{fact[1]}</dd>
          </>
        ),
    )}
  </dl>
);

/** Leads on through a list that is longer than a page. */
export const Pager = ({ children }: { children: ComponentChildren }) => (
  <nav class="pager" aria-label="Pages">
    {children}
  </nav>
);

/** The head of a table: a word a column. */
export const Columns = ({ of }: { of: readonly ComponentChildren[] }) => (
  <thead>
    <tr>
      {of.map((column, i) => (
        <th scope="col" key={i}>
          {column}
        </th>
      ))}
    </tr>
  </thead>
);
