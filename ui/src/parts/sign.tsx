/** Stands before what needs a person: colour alone says nothing. */
export function Sign() {
  return (
    <svg class="sign" viewBox="0 0 20 20" aria-hidden="true">
      <path d="M10 1.5 19.3 18H.7z" />
    </svg>
  );
}
