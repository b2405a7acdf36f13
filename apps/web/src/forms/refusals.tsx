/** Why a reading was not taken, in the call colour, read out at once. */
export function Refusals({ says }: { readonly says: readonly string[] }) {
  return (
    <div role="alert">
      {says.length > 0 ? (
        <div className="ask refusal">
          {says.map((line) => (
            <p key={line}>{line}</p>
          ))}
        </div>
      ) : null}
    </div>
  );
}
