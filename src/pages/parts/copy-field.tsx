import { InputField } from './form.js';

/** An address to be taken elsewhere; the page has `copy.js`. */
export const CopyField = ({ label, value }: { label: string; value: string }) => (
  <div class="row">
    <InputField label={label} name="url" wide readonly value={value} />
    <p>
      <button type="button" class="main-action" data-copy="url" hidden>
        Copy
      </button>
    </p>
  </div>
);
