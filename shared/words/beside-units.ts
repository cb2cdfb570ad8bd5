import { celsiusToFahrenheit, mmToInches } from "#shared/units.ts";
import type { Formats } from "./formats.ts";
import { fraction } from "./fractions.ts";

/** A range in the units of the figures that are sent, as a kitchen in US units reads it beside: " (86 to 176 °F)". */
export function besideUnits(min: number, max: number, unit: string, format: Formats, to: string): string {
  if (format.units !== "us") return "";
  const range = (from: string, until: string, name: string): string => ` (${from} ${to} ${until} ${name})`;
  if (unit === "°C") {
    const fahrenheit = (tempC: number): string => format.number(celsiusToFahrenheit(tempC));
    return range(fahrenheit(min), fahrenheit(max), "°F");
  }
  if (unit !== "mm" && unit !== "cm") return "";
  const inches = (length: number): string => fraction(mmToInches(length * (unit === "cm" ? 10 : 1)), 16);
  return range(inches(min), inches(max), format.inch);
}
