/** What screens show of the practice kitchen beside invented names. */
export const practice = () => ({
  houseRules: [
    "Dry mitts for the oven, never a damp cloth.",
    "Needle bubbles before you put the bag down.",
    "Whoever switches a tool on switches it off.",
  ],
  labelText: "Iced cookies. Contains: wheat, egg, milk. Keep dry, away from sun.",
  rack: (letter: string) => `Rack ${letter}`,
  bench: (number: number) => `Bench ${number}`,
  fanRack: "Fan rack",
  cabinet: "Warm cabinet",
  oven: "Low oven",
  hotAir: (bench: number) => `Hot air, bench ${bench}`,
});
