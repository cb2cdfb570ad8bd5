import type { Formats, Plural } from "#shared/words/formats.ts";
import type { Words } from "#shared/words/words.ts";
import { terms } from "./terms.ts";

const TRAYS: Plural = { one: "bandeja", other: "bandejas" };

export const setUp = (format: Formats): Words["setUp"] => ({
  steps: {
    label: "Pasos",
    names: ["Cocina", "Lugares", "Equipos de calor", "Glaseados", "Primer diseño"],
    notes: [
      "Dónde están las bandejas y qué aire tienen: de eso depende cuánto tardan en secar.",
      "Lo que fija el glaseado con calor. Déjelo vacío si no usa nada.",
      "Sus colores. El agua de cada consistencia es la de la cocina, salvo que un glaseado sea distinto.",
      "Un diseño para empezar: sus capas en el orden en que se ponen.",
    ],
    next: (name) => `Siguiente: ${name}`,
    done: "Listo: añadir el primer pedido",
    back: "Atrás",
  },
  usualRoom: {
    start: "Empezar con una sala habitual",
    has: "dos estantes, uno con ventilador, una mesa, un horno bajo, un equipo de aire caliente, tres glaseados y un diseño: cambie lo que sea distinto",
    done: "La sala habitual está lista",
    names: {
      rackA: "Estante A",
      rackB: "Estante B",
      fanRack: "Estante con ventilador",
      bench: "Mesa",
      oven: "Horno bajo",
      hotAir: "Aire caliente 1",
      cream: "crema",
      blue: "azul tinta",
      green: "hoja",
      design: "Redonda con borde",
      outline: "Contorno",
      flood: "Relleno",
      border: "Borde",
    },
  },
  settings: (people) => ({
    name: { label: "Nombre de la cocina" },
    units: { label: "Unidades" },
    timeZone: { label: "Zona horaria", hint: "Al principio, la de este teléfono." },
    opening: { label: "Horario", hint: "Si cierra antes de abrir, cierra al día siguiente." },
    "wall.diagonalCm": {
      label: "Diagonal de la pantalla de pared",
      unit: format.inch,
      hint: "De esto y de lo siguiente sale el tamaño de la letra.",
    },
    "wall.farthestM": { label: "Lector más lejano de la pared" },
    "waterPct.outline": { label: "Agua en el contorno", unit: "% de su masa" },
    "waterPct.top-coat": { label: "Agua en la cobertura", unit: "% de su masa" },
    "waterPct.flood": { label: "Agua en el relleno", unit: "% de su masa" },
    "waterPct.detail": { label: "Agua en el detalle", unit: "% de su masa" },
    densityKgM3: { label: "Densidad del glaseado" },
    wastePct: {
      label: "Glaseado que queda en mangas y boles",
      unit: "% de lo puesto",
      hint: "Se suma a lo que hay que mezclar.",
    },
    icingUseH: {
      label: "El glaseado se usa antes de",
      unit: "h de mezclarlo",
      hint: "Según el plan de su cocina y las normas locales. Vacío: cada tanda lleva su propia hora límite.",
    },
    icingLimitC: { label: "Glaseado: nunca más caliente que" },
    sinkShare: { label: "Fijar una sección que se hunde antes del", unit: "% de su tiempo de costra" },
    floodingMin: { label: "Rellenar una capa de una bandeja lleva" },
    packingMin: { label: "Empacar un pedido lleva" },
    hands: {
      label: "Cuántos glasean a la vez",
      unit: "personas",
      hint: `Con esto y el horario se calculan los retiros. Vacío: todos los que entraron, ahora ${format.number(people)}.`,
    },
    icingChangeMin: { label: "Cambiar de un glaseado a otro lleva" },
    boxOf: {
      label: "Galletas por caja",
      hint: "Vacío: no se empaca en cajas. Un pedido puede llevar otra cantidad.",
    },
    bestBeforeDays: {
      label: "Consumo preferente tras empacar",
      unit: "días",
      hint: "Según la regla de su cocina y las normas locales. Vacío: las etiquetas no llevan fecha.",
    },
    labelText: {
      label: "En las etiquetas: alérgenos y conservación",
      hint: "Sus propias palabras, tal como están. Traytide no comprueba nada de ello.",
    },
    toolIdleMin: { label: "Avisar de un equipo encendido sin uso a los" },
    houseRules: { label: "Reglas de la casa para el calor, una por línea" },
    mqtt: { label: "Por MQTT" },
  }),
  unitSystems: {
    metric: { name: "Métricas", hint: "mm, g, mL, °C" },
    us: { name: "EE. UU.", hint: "pulgadas, tazas, cucharas, °F" },
  },
  opening: {
    none: "cerrado",
    from: (day) => `${day}, abre`,
    until: (day) => `${day}, cierra`,
    missing: (field) => `${field}: falta. Ponga una hora, o desmarque el día si la cocina cierra.`,
  },
  moreSettings: "Glaseado, tiempos y reglas de la casa",
  houseRules: {
    hint: (most, letters) =>
      `Se muestran después de las precauciones de siempre, que no se quitan. Como máximo ${most}, de ${letters} letras cada una.`,
    tooMany: (most, letters) =>
      `Las reglas de la casa deben ser como máximo ${most}, de ${letters} letras cada una.`,
  },
  saveAndGoOn: "Guardar y seguir",
  kitchenSaved: "Cocina guardada",
  kind: "Tipo",
  place: {
    none: "Aún no hay lugares.",
    add: "Añadir un lugar",
    line: (kind, capacity, airSpeedMs, setTempC) =>
      `${format.sentence(terms(format).placeKinds[kind])} · ${format.count(capacity, TRAYS)} · aire ${format.number(airSpeedMs, 2)} m/s${setTempC === undefined ? "" : ` · ${format.temp(setTempC)}`}`,
    name: "Nombre del lugar",
    capacity: "Bandejas que caben",
    air: "Aire sobre las bandejas",
    airs: { still: "Quieto", moving: "En movimiento", fan: "Ventilador", measured: "Medido" },
    airSpeed: "Velocidad del aire",
    setTemp: "Puesto a",
    airFrom: "Su aire se lee en",
    itself: "este lugar",
    airFromHint: "Un higrómetro puede servir a varios lugares.",
  },
  tool: {
    none: "Aún no hay equipos de calor.",
    add: "Añadir un equipo de calor",
    kinds: {
      "hot-air": "Aire caliente",
      oven: "Horno bajo",
      "warm-cabinet": "Armario tibio",
    },
    line: (kind, airC, capMin) => `${kind} · ${format.temp(airC)} · ${format.span(capMin)} como máximo`,
    name: "Nombre del equipo",
    figures: (kind) => ({
      airC: { label: "Aire en la boquilla" },
      maxAirC: { label: "Nunca más caliente que", hint: "Una lectura mayor da una alerta." },
      capS: { label: kind === "hot-air" ? "Máximo por galleta" : "Máximo por bandeja" },
      coolDownMin: { label: "Se enfría en" },
      distanceCm: { label: "Distancia a la galleta" },
      nozzleMm: { label: "Ancho de la boquilla" },
    }),
    place: "Qué lugar es",
    placeHint: "Las bandejas que calienta están ahí, a la temperatura puesta en ese lugar.",
    addPlaceFirst: (kind) =>
      `Primero añada ${kind === "oven" ? "el horno" : "el armario tibio"} como lugar: ahí van las bandejas.`,
    limitUnderAir: (airC) =>
      `«Nunca más caliente que» debe ser al menos ${format.temp(airC)}, el aire al que está puesto.`,
  },
});
