import { type Accessor, createRenderEffect } from "solid-js";

/**
 * For an input's `ref`: it shows `value`, and is left alone while it does. A date or a time that is half typed counts as "": written
 * to, it would lose the parts that are there.
 */
export const shows =
  (value: Accessor<string>) =>
  (input: { value: string }): void =>
    createRenderEffect(() => {
      const wanted = value();
      if (input.value !== wanted) input.value = wanted;
    });
