import { Component, type ErrorInfo, type ReactNode } from 'react';

interface Props {
  readonly title: string;
  readonly children: ReactNode;
  /** The view is tried again by itself when this changes, for example after undo. */
  readonly resetKey: unknown;
  /** Says nothing: for what lies behind something else. */
  readonly silent?: boolean;
}

/** Keeps a fault in one view from taking the others, and the open setup, with it. */
export class ViewBoundary extends Component<Props, { readonly failure: Error | null }> {
  override state: { readonly failure: Error | null } = { failure: null };

  static getDerivedStateFromError(failure: Error) {
    return { failure };
  }

  override componentDidCatch(failure: Error, info: ErrorInfo) {
    console.error(`${this.props.title} stopped`, failure, info.componentStack);
  }

  override componentDidUpdate(before: Props) {
    if (this.state.failure !== null && before.resetKey !== this.props.resetKey) this.setState({ failure: null });
  }

  override render() {
    if (this.state.failure === null) return this.props.children;
    if (this.props.silent) return null;
    return (
      <div className="kg-empty" role="alert">
        <p>{this.props.title} stopped. Your setup is safe.</p>
        <p className="kg-quiet">{this.state.failure.message}</p>
        <button type="button" className="kg-action" onClick={() => this.setState({ failure: null })}>
          Try again
        </button>
      </div>
    );
  }
}
