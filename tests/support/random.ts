/** Numbers from 0 up to 1, the same for the same seed: a 32-bit xorshift (Marsaglia 2003, from memory). */
export function randomFrom(seed: number): () => number {
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}
