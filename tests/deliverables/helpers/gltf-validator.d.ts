/** The part of the Khronos validator's interface that the tests use; the package brings no types. */
declare module 'gltf-validator' {
  export interface ValidationReport {
    readonly issues: {
      readonly numErrors: number;
      readonly numWarnings: number;
      /** Severity 0 is an error, 1 a warning, 2 information, 3 a hint. */
      readonly messages: readonly { readonly code: string; readonly message: string; readonly severity: number }[];
    };
    readonly info: {
      readonly version: string;
      readonly extensionsUsed?: readonly string[];
      readonly totalTriangleCount: number;
    };
  }
  export function validateBytes(bytes: Uint8Array, options?: { maxIssues?: number }): Promise<ValidationReport>;
}
