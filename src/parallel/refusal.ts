import { NoContact } from "../contact/noContact.js";
import { NotFound } from "../numeric/notFound.js";
import { SpecError } from "../spec/error.js";

/** One of the library's errors as data: of a class of its own it would come out of a thread as a plain `Error`. */
export type Refusal =
  | { readonly kind: "SpecError"; readonly field: string; readonly value: unknown; readonly allowed: string }
  | {
      readonly kind: "NoContact";
      readonly reason: NoContact["reason"];
      readonly value: unknown;
      readonly allowed: string;
    }
  | { readonly kind: "NotFound"; readonly message: string };

/** An error as data; nothing for one that is none of the library's. */
export function refusalOf(error: unknown): Refusal | undefined {
  if (error instanceof NotFound) return { kind: "NotFound", message: error.message };
  if (!(error instanceof SpecError)) return undefined;
  const { field, value, allowed } = error;
  if (error instanceof NoContact) return { kind: "NoContact", reason: error.reason, value, allowed };
  return { kind: "SpecError", field, value, allowed };
}

/** The same error again, of the class that this side knows. */
export function errorOf(refusal: Refusal): SpecError | NotFound {
  if (refusal.kind === "NotFound") return new NotFound(refusal.message);
  if (refusal.kind === "NoContact") return new NoContact(refusal.reason, refusal.value, refusal.allowed);
  return new SpecError(refusal.field, refusal.value, refusal.allowed);
}
