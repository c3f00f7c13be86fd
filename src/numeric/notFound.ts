/** A search or an integration that came to no end: what was asked has no answer, or is far outside of what rings are. */
export class NotFound extends Error {
  /** Always "NotFound". */
  override readonly name = "NotFound";
}
