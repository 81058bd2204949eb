import type { ComponentChildren, JSX } from 'preact';
import { usePage } from './page-context.js';

/**
 * A form. One that writes for who is signed in carries the proof that it is ours and what tells a second press
 * from a second write.
 */
export function Form(
  props: Omit<JSX.IntrinsicElements['form'], 'hidden'> & {
    hidden?: Readonly<Record<string, string | number | undefined>>;
    /** The words of the button at its end that sends it. */
    send?: ComponentChildren;
    main?: boolean;
  },
) {
  const { hidden = {}, send, main, children, method = 'post', ...form } = props;
  const { csrf, once } = usePage();
  const unseen = method === 'post' && csrf ? { _csrf: csrf, once, ...hidden } : hidden;
  return (
    <form method={method} {...form}>
      {Object.entries(unseen).map(
        ([name, value]) =>
          value !== undefined && <input key={name} type="hidden" name={name} value={value} />,
      )}
      {children}
      {send && (
        <p>
          <Submit main={main}>{send}</Submit>
        </p>
      )}
    </form>
  );
}

export const Submit = ({ main, ...button }: { main?: boolean } & JSX.IntrinsicElements['button']) => (
  <button type="submit" class={main ? 'main-action' : undefined} {...button} />
);
