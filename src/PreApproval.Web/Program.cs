WebApplicationBuilder builder = WebApplication.CreateBuilder(args);
WebApplication app = builder.Build();
await app.RunAsync();

/// <summary>The entry point; public for the tests that start the application.</summary>
public partial class Program;
