import type { Kitchen, ToolState, ToolUse, Tray } from "#shared/kitchen/model/state.ts";

/** A table of trays with this one in it. */
export type PutTray = (trays: Kitchen["trays"], tray: Tray) => Kitchen["trays"];
export const putTray: PutTray = (trays, tray) => ({ ...trays, [tray.id]: tray });

/** The kitchen with one tray changed; as it was where the tray or its design is gone. */
export function onTray(
  kitchen: Kitchen,
  trayId: string,
  put: PutTray,
  change: (tray: Tray, design: Kitchen["designs"][string]) => Tray,
): Kitchen {
  const tray = kitchen.trays[trayId];
  const design = tray === undefined ? undefined : kitchen.designs[tray.designId];
  if (tray === undefined || design === undefined) return kitchen;
  const trays = put(kitchen.trays, change(tray, design));
  return trays === kitchen.trays ? kitchen : { ...kitchen, trays };
}

/** The kitchen with one tool changed; as it was where the tool is gone. */
export function onTool(kitchen: Kitchen, toolId: string, change: (tool: ToolState) => ToolState): Kitchen {
  const tool = kitchen.tools[toolId];
  return tool === undefined ? kitchen : withTool(kitchen, change(tool));
}

export const onUse = (kitchen: Kitchen, toolId: string, change: (use: ToolUse) => ToolUse): Kitchen =>
  onTool(kitchen, toolId, (tool) => ({ ...tool, use: change(tool.use) }));

export const withTool = (kitchen: Kitchen, tool: ToolState): Kitchen => ({
  ...kitchen,
  tools: { ...kitchen.tools, [tool.id]: tool },
});

/** A table less one of its entries. */
export function without<Value>(
  table: Readonly<Record<string, Value>>,
  key: string,
): Readonly<Record<string, Value>> {
  const { [key]: _gone, ...rest } = table;
  return rest;
}
