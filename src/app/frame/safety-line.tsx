/** Always there, quietly: what these figures are not. */
export function SafetyLine() {
  return (
    <p class="safety">
      Estimates, not a permission. High voltage kills; so does what stays in the capacitors. Local codes and licensed
      practice come first.
    </p>
  );
}
