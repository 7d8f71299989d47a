namespace PreApproval.Web.Shared.Components;

/// <summary>Marks a page that needs a live connection; all others are plain documents with forms.</summary>
[AttributeUsage(AttributeTargets.Class)]
public sealed class InteractivePageAttribute : Attribute;
