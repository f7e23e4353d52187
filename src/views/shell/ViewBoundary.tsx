import { Component, type ErrorInfo, type ReactNode } from 'react';

interface Props {
  readonly title: string;
  readonly children: ReactNode;
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

  override render() {
    if (this.state.failure === null) return this.props.children;
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
