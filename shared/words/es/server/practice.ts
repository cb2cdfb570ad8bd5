import type { Words } from "#shared/words/words.ts";

export const practice = (): Words["server"]["practice"] => ({
  houseRules: [
    "Guantes secos para el horno, nunca un trapo húmedo.",
    "Pinche las burbujas antes de soltar la manga.",
    "Quien enciende una herramienta la apaga.",
  ],
  labelText: "Galletas glaseadas. Contienen: trigo, huevo, leche. Conservar en seco, sin sol.",
  rack: (letter) => `Estante ${letter}`,
  bench: (number) => `Mesa ${number}`,
  fanRack: "Estante con ventilador",
  cabinet: "Armario tibio",
  oven: "Horno bajo",
  hotAir: (bench) => `Aire caliente, mesa ${bench}`,
});
