import * as v from "valibot";
import { must } from "./fields.ts";

/** An id: 1–40 letters, digits, "_" or "-". Made by whoever creates the thing, so that sending it twice is harmless. */
const idOf = <Brand extends string>(brand: Brand) =>
  v.pipe(
    v.string(must({ is: "id", of: brand })),
    v.regex(/^[\w-]{1,40}$/, must({ is: "id", of: brand })),
    // Nor a key that every object inherits.
    v.check((id) => !(id in Object.prototype), must({ is: "id", of: brand })),
    v.brand(brand),
  );

export const CommandId = idOf("CommandId");
export const DeviceId = idOf("DeviceId");
export const PersonId = idOf("PersonId");
export const PlaceId = idOf("PlaceId");
export const ToolId = idOf("ToolId");
export const IcingId = idOf("IcingId");
export const RecipeId = idOf("RecipeId");
export const BatchId = idOf("BatchId");
export const DesignId = idOf("DesignId");
export const OrderId = idOf("OrderId");
export const TrayId = idOf("TrayId");

export type CommandId = v.InferOutput<typeof CommandId>;
export type DeviceId = v.InferOutput<typeof DeviceId>;
export type PersonId = v.InferOutput<typeof PersonId>;
export type PlaceId = v.InferOutput<typeof PlaceId>;
export type ToolId = v.InferOutput<typeof ToolId>;
export type IcingId = v.InferOutput<typeof IcingId>;
export type RecipeId = v.InferOutput<typeof RecipeId>;
export type BatchId = v.InferOutput<typeof BatchId>;
export type DesignId = v.InferOutput<typeof DesignId>;
export type OrderId = v.InferOutput<typeof OrderId>;
export type TrayId = v.InferOutput<typeof TrayId>;

/** Brands a string that is already known to be an id (made by our own maker, or a key of the state). */
export const asId = <Id extends string>(raw: string): Id => raw as Id;
