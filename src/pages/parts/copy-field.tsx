/** An address to be taken elsewhere; the page has `copy.js`. */
export const CopyField = ({ label, value }: { label: string; value: string }) => (
  <div class="row">
    <p class="field wide">
      <label for="url">{label}</label>
      <input id="url" readonly value={value} />
    </p>
    <p>
      <button type="button" class="main-action" data-copy="url" hidden>
        Copy
      </button>
    </p>
  </div>
);
