/** Whether what was built is older than what it is built from; the root's path ends with "/". */
export function isStale(root: string): boolean;
