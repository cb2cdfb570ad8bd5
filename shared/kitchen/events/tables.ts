import type { Kitchen, ToolState, ToolUse, Tray } from "#shared/kitchen/model/state.ts";

/** The kitchen with one tray changed; as it was where the tray or its design is gone. */
export function onTray(
  kitchen: Kitchen,
  trayId: string,
  change: (tray: Tray, design: Kitchen["designs"][string]) => Tray,
): Kitchen {
  const tray = kitchen.trays[trayId];
  const design = tray === undefined ? undefined : kitchen.designs[tray.designId];
  if (tray === undefined || design === undefined) return kitchen;
  return { ...kitchen, trays: { ...kitchen.trays, [trayId]: change(tray, design) } };
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
