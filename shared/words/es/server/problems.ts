import { unreachable } from "#shared/outcome.ts";
import type { AlertGroup } from "#shared/kitchen/model/alert-kinds.ts";
import type { BackupTrouble, SaveTrouble, ServerProblem } from "#shared/kitchen/model/server-problem.ts";
import type { Words } from "#shared/words/words.ts";

const REMEDIES: Readonly<Record<SaveTrouble, string>> = {
  "disk-full": "Su disco está lleno: libere espacio.",
  "read-only": "No se puede escribir en su carpeta de datos: permita la escritura.",
  "folder-gone": "Se borró o cambió su carpeta de datos: devuélvala y reinicie el servidor.",
  "database-away": "No llega a su base de datos: revise PostgreSQL y la red. Seguirá solo.",
  "database-read-only": "Su base de datos solo se puede leer: permita la escritura, o promueva su réplica.",
  unknown: "Revise su disco y reinícielo.",
};

const NO_BACKUP: Readonly<Record<BackupTrouble, string>> = {
  "folder-missing": "no se encuentra su carpeta. Conecte su disco o cree la carpeta.",
  "folder-lost-backups": "en su carpeta no está ninguna de las anteriores. Conecte su disco.",
  "disk-full": "su disco está lleno. Libere espacio.",
  "read-only": "no se puede escribir en su carpeta. Permita la escritura.",
  damaged: "la copia no salió íntegra. Ejecute npm run verify en el servidor.",
  unknown: "algo falló. El registro del servidor dice qué.",
};

const UNCHECKED: Readonly<Record<AlertGroup, string>> = {
  heat: "las alarmas de calor: vigilen ustedes las herramientas",
  tools: "las alarmas de las herramientas: comprueben a mano que cada una esté apagada",
  films: "burbujas y hundimientos: vigilen ustedes el glaseado",
  icing: "la edad del glaseado: miren su hora límite de uso",
  orders: "los retiros: revisen ustedes los pedidos",
  air: "el aire: miren los higrómetros",
  people: "qué teléfonos esperan para entrar: miren en Sala",
};

export const problems = (): Words["server"]["problems"] => {
  const remedy = (why: SaveTrouble): string => REMEDIES[why];

  function say(problem: ServerProblem): string {
    switch (problem.code) {
      case "cannot-save":
        return `El servidor no puede guardar: nada queda confirmado hasta que pueda. ${remedy(problem.why)}`;
      case "log-cut-short":
        return `El registro termina en el evento ${problem.heldSeq}, aunque se guardaron ${problem.knownSeq}: faltan los últimos. Compare las bandejas con el tablero, o detenga el servidor y ponga una copia más nueva de su carpeta de datos.`;
      case "alerts-stopped":
        return "Traytide dejó de revisar las alarmas: vigilen ustedes el calor y las herramientas, y reinicien el servidor.";
      case "rule-failed":
        return `Traytide no puede revisar ${UNCHECKED[problem.group]}.`;
      case "clock-jumped":
        return `El reloj del servidor se adelantó ${span(problem.byS)}: revise su hora y lo que estaba al calor.`;
      case "clock-behind":
        return `El reloj del servidor está ${span(problem.byS)} atrás de la hora de la cocina. Póngalo en hora.`;
      case "backup-old":
        return problem.hours === null
          ? "Todavía no hay ninguna copia de seguridad de esta cocina."
          : `La última copia de seguridad buena tiene ${span(problem.hours * 3600)}.`;
      case "backup-failed":
        return `No se puede hacer copia de seguridad: ${NO_BACKUP[problem.why]}`;
      case "disk-low":
        return `Quedan solo ${problem.freeMb} MB libres en ${problem.disk === "data" ? "el disco del servidor" : "el disco de las copias de seguridad"}: libere espacio.`;
      default:
        return unreachable(problem);
    }
  }

  return { remedy, say };
};

function span(s: number): string {
  if (s < 120) return `${s} s`;
  return s < 7200 ? `${Math.round(s / 60)} min` : `${Math.round(s / 3600)} h`;
}
