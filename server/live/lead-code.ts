import { createHash, randomBytes, scrypt, timingSafeEqual } from "node:crypto";
import { promisify } from "node:util";
import type { ValueStore } from "#server/log/store.ts";

/** The lead code, of which only a slow hash is kept: whoever reads the database cannot join as a lead by it. */
export interface LeadCode {
  /** To be shown this once: there is no other way to learn it. Absent where it was shown before. */
  shown?: string;
  /** Whether this is the code, its case, spaces and hyphens aside. */
  is: (typed: string) => Promise<boolean>;
  /**
   * Writes down what was shown: not before, so that a start that fails loses no code. False where another server of the kitchen did so
   * first, and its code counts.
   */
  keep: () => Promise<boolean>;
}

const derive = promisify<string, Buffer, number, Buffer>(scrypt);
const HASH_BYTES = 32;
const KEY = "lead code scrypt";
/** Where a kitchen of before kept it as it is. */
const PLAIN_KEY = "lead code";

/** A code as typed by people: case, spaces and hyphens do not matter. */
export const plainCode = (code: string): string => code.toUpperCase().replaceAll(/[\s-]/g, "");

const sha256 = (text: string): Buffer => createHash("sha256").update(text).digest();

/** Whether two secrets are equal, in a time that tells nothing. */
export const sameSecret = (a: string, b: string): boolean => timingSafeEqual(sha256(a), sha256(b));

/** Opens a kitchen's lead code; makes one where there is none yet, or another is asked for. */
export async function openLeadCode(
  values: ValueStore,
  newCode: () => string,
  { isRenewed }: { isRenewed: boolean },
): Promise<LeadCode> {
  const older = await values.get(PLAIN_KEY);
  const stored = await values.get(KEY);
  const shown = isRenewed || (stored === undefined && older === undefined) ? newCode() : undefined;
  const code = shown ?? older;
  let fresh = code === undefined ? undefined : await hashOf(code, randomBytes(16));
  return {
    ...(shown !== undefined && { shown }),
    is: async (typed) => {
      // Another server of the kitchen may have renewed it.
      const [salt = "", hash = ""] = (fresh ?? (await values.get(KEY)) ?? "").split(":");
      const given = await derive(plainCode(typed), Buffer.from(salt, "hex"), HASH_BYTES);
      const kept = Buffer.from(hash, "hex");
      return kept.length === given.length && timingSafeEqual(kept, given);
    },
    keep: async () => {
      const hashed = fresh;
      if (hashed === undefined) return true;
      const isReplaced = isRenewed || older !== undefined;
      if (isReplaced) await values.put({ [KEY]: hashed, [PLAIN_KEY]: undefined });
      const kept = isReplaced ? hashed : await values.getOrCreate(KEY, () => hashed);
      fresh = undefined;
      return kept === hashed;
    },
  };
}

const hashOf = async (code: string, salt: Buffer): Promise<string> =>
  `${salt.toString("hex")}:${(await derive(plainCode(code), salt, HASH_BYTES)).toString("hex")}`;
